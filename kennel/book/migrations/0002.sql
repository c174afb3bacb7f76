-- When a coat was last looked at, so that only work done after it moves the layers that were seen. A dog or an area
-- without a row was looked at before all work in the book.
CREATE TABLE seen (
    dog    TEXT NOT NULL REFERENCES dogs (name) DEFERRABLE INITIALLY DEFERRED,
    area   TEXT NOT NULL, -- 'all' = the whole dog
    on_day TEXT NOT NULL,
    work   INTEGER NOT NULL, -- the last work in the book by then, of those of the same day
    PRIMARY KEY (dog, area)
) STRICT;

-- An undo is asked for by what it undid.
CREATE INDEX history_undoes ON history (undoes) WHERE undoes IS NOT NULL;
