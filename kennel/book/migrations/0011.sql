-- What is wanted of single areas of a dog beside readiness.
CREATE TABLE outlines (
    dog      TEXT NOT NULL REFERENCES dogs (name) DEFERRABLE INITIALLY DEFERRED,
    position INTEGER NOT NULL,
    area     TEXT,
    note     TEXT,
    least_mm REAL, -- what the outline may not be shorter than; 0 = none
    PRIMARY KEY (dog, position)
) STRICT;
