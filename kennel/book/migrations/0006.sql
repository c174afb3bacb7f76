-- The name that a dog is registered and shown under.
ALTER TABLE dogs ADD COLUMN ring_name TEXT;
