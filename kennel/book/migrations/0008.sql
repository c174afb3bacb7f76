-- How the long layers were seen before the work.
CREATE TABLE work_looks (
    work     INTEGER NOT NULL REFERENCES work (id) DEFERRABLE INITIALLY DEFERRED,
    position INTEGER NOT NULL,
    area     TEXT NOT NULL,
    long     TEXT NOT NULL, -- none, thin, as expected, thick
    share    REAL NOT NULL, -- of the area's hair that is long by it
    PRIMARY KEY (work, position)
) STRICT;
