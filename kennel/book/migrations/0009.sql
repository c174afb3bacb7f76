-- The day on which a duty was last done, as a kennel file says it.
ALTER TABLE duties ADD COLUMN done TEXT;
