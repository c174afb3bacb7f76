-- The plan in use is kept with what was agreed on: the row names its record, a plan as bytes, by its SHA-256 in hexadecimal. So lines of
-- history name a plan in 64 letters and don't hold it, and a plan that comes back by an undo is there still. What was agreed on
-- before has no record.
ALTER TABLE agreed ADD COLUMN record TEXT;
CREATE TABLE plan_records (
    id     INTEGER PRIMARY KEY,
    record TEXT NOT NULL UNIQUE,
    plan   BLOB NOT NULL
) STRICT;
