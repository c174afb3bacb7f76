-- Pictures of dogs: what they are of. The pictures lie beside the book, by their digests.
CREATE TABLE photos (
    id     INTEGER PRIMARY KEY,
    dog    TEXT NOT NULL REFERENCES dogs (name) DEFERRABLE INITIALLY DEFERRED,
    on_day TEXT NOT NULL,
    area   TEXT, -- 'all' = the whole dog
    digest TEXT NOT NULL, -- SHA-256 of the picture, in hexadecimal
    note   TEXT
) STRICT;
