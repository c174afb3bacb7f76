-- Days in which a dog is not as it usually is: in season, whelping, ill, hurt.
CREATE TABLE spells (
    dog      TEXT NOT NULL REFERENCES dogs (name) DEFERRABLE INITIALLY DEFERRED,
    position INTEGER NOT NULL,
    from_day TEXT,
    to_day   TEXT, -- empty = until further notice
    what     TEXT, -- season, whelping, illness, injury, other
    growth   REAL, -- of as fast as ever
    at_table TEXT, -- yes, no; empty = as the kind has it
    PRIMARY KEY (dog, position)
) STRICT;
