-- Who may do a duty, and that a dog has none of what its pattern brings under its name.
ALTER TABLE duties ADD COLUMN work TEXT;
ALTER TABLE duties ADD COLUMN leave_out INTEGER;
