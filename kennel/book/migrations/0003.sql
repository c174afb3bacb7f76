-- When sessions were last agreed on: the day that was planned from, and the change that the book was at. A plan that is
-- made anew is compared with that one.
CREATE TABLE agreed (
    id     INTEGER PRIMARY KEY CHECK (id = 1),
    on_day TEXT NOT NULL,
    change INTEGER NOT NULL
) STRICT;
