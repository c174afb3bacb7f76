-- The book as it began: what the kennel is, what was done, what was agreed, and one line for every change.
-- Days are text like 2027-03-20, hours are hours, minutes minutes, shares 0 to 1. What was not told is NULL.
-- References are looked at when a change ends, so that rows may be written in any order.

CREATE TABLE kennel (
    id        INTEGER PRIMARY KEY CHECK (id = 1),
    name      TEXT,
    plan_from TEXT,
    weeks     INTEGER NOT NULL,
    time_zone TEXT,
    units     TEXT
) STRICT;

CREATE TABLE hands (
    name              TEXT PRIMARY KEY NOT NULL,
    position          INTEGER NOT NULL,
    mon               REAL NOT NULL,
    tue               REAL NOT NULL,
    wed               REAL NOT NULL,
    thu               REAL NOT NULL,
    fri               REAL NOT NULL,
    sat               REAL NOT NULL,
    sun               REAL NOT NULL,
    strip_hours_a_day REAL NOT NULL,
    does              TEXT -- kinds of work with commas between; NULL = all
) STRICT;

CREATE TABLE hands_away (
    hands    TEXT NOT NULL REFERENCES hands (name) DEFERRABLE INITIALLY DEFERRED,
    position INTEGER NOT NULL,
    from_day TEXT,
    to_day   TEXT,
    why      TEXT,
    PRIMARY KEY (hands, position)
) STRICT;

CREATE TABLE dogs (
    name      TEXT PRIMARY KEY NOT NULL,
    position  INTEGER NOT NULL,
    pattern   TEXT NOT NULL,
    born      TEXT,
    owner     TEXT,
    texture   TEXT,
    growth    REAL NOT NULL,
    pace      REAL NOT NULL,
    roll_only INTEGER NOT NULL CHECK (roll_only IN (0, 1)),
    set_up    REAL NOT NULL,
    minutes   REAL NOT NULL,
    a_week    INTEGER NOT NULL,
    priority  REAL NOT NULL
) STRICT;

CREATE TABLE dogs_here (
    dog      TEXT NOT NULL REFERENCES dogs (name) DEFERRABLE INITIALLY DEFERRED,
    position INTEGER NOT NULL,
    from_day TEXT,
    to_day   TEXT,
    why      TEXT,
    PRIMARY KEY (dog, position)
) STRICT;

CREATE TABLE layers (
    dog      TEXT NOT NULL REFERENCES dogs (name) DEFERRABLE INITIALLY DEFERRED,
    area     TEXT NOT NULL, -- 'all' = every area that has none of its own
    position INTEGER NOT NULL,
    share    REAL NOT NULL,
    pulled   TEXT NOT NULL,
    PRIMARY KEY (dog, area, position)
) STRICT;

CREATE TABLE duties (
    dog         TEXT NOT NULL REFERENCES dogs (name) DEFERRABLE INITIALLY DEFERRED,
    position    INTEGER NOT NULL,
    name        TEXT NOT NULL,
    minutes     REAL NOT NULL,
    every       INTEGER NOT NULL, -- weeks; 0 = before shows
    before_from INTEGER,          -- days before a show
    before_to   INTEGER,
    PRIMARY KEY (dog, position)
) STRICT;

CREATE TABLE shows (
    name          TEXT NOT NULL,
    on_day        TEXT NOT NULL,
    position      INTEGER NOT NULL,
    days          INTEGER NOT NULL,
    entries_close TEXT,
    weight        REAL NOT NULL,
    chance        REAL NOT NULL,
    away          INTEGER NOT NULL CHECK (away IN (0, 1)), -- 0 = away on the show's days
    away_from     TEXT,
    away_to       TEXT,
    away_why      TEXT,
    PRIMARY KEY (name, on_day)
) STRICT;

CREATE TABLE show_dogs (
    show     TEXT NOT NULL,
    on_day   TEXT NOT NULL,
    position INTEGER NOT NULL,
    dog      TEXT NOT NULL REFERENCES dogs (name) DEFERRABLE INITIALLY DEFERRED,
    PRIMARY KEY (show, on_day, position),
    FOREIGN KEY (show, on_day) REFERENCES shows (name, on_day) DEFERRABLE INITIALLY DEFERRED
) STRICT;

CREATE TABLE work (
    id      INTEGER PRIMARY KEY,
    dog     TEXT NOT NULL REFERENCES dogs (name) DEFERRABLE INITIALLY DEFERRED,
    on_day  TEXT NOT NULL,
    hands   TEXT,
    minutes REAL NOT NULL,
    duty    TEXT,
    stopped INTEGER NOT NULL CHECK (stopped IN (0, 1)),
    note    TEXT
) STRICT;

CREATE TABLE work_areas (
    work     INTEGER NOT NULL REFERENCES work (id) DEFERRABLE INITIALLY DEFERRED,
    position INTEGER NOT NULL,
    area     TEXT NOT NULL,
    share    REAL NOT NULL,
    PRIMARY KEY (work, position)
) STRICT;

CREATE TABLE measures (
    id        INTEGER PRIMARY KEY,
    dog       TEXT NOT NULL REFERENCES dogs (name) DEFERRABLE INITIALLY DEFERRED,
    on_day    TEXT NOT NULL,
    area      TEXT NOT NULL,
    length_mm REAL NOT NULL,
    note      TEXT
) STRICT;

CREATE TABLE showables (
    id     INTEGER PRIMARY KEY,
    dog    TEXT NOT NULL REFERENCES dogs (name) DEFERRABLE INITIALLY DEFERRED,
    area   TEXT NOT NULL,
    pulled TEXT NOT NULL,
    on_day TEXT NOT NULL
) STRICT;

CREATE TABLE sessions (
    id      INTEGER PRIMARY KEY,
    dog     TEXT NOT NULL REFERENCES dogs (name) DEFERRABLE INITIALLY DEFERRED,
    on_day  TEXT NOT NULL,
    start   TEXT NOT NULL, -- 24-hour clock, like 09:05
    minutes REAL NOT NULL,
    hands   TEXT,
    pinned  INTEGER NOT NULL CHECK (pinned IN (0, 1)),
    work    INTEGER REFERENCES work (id) DEFERRABLE INITIALLY DEFERRED -- what was done of it
) STRICT;

CREATE TABLE session_areas (
    session  INTEGER NOT NULL REFERENCES sessions (id) DEFERRABLE INITIALLY DEFERRED,
    position INTEGER NOT NULL,
    area     TEXT NOT NULL,
    share    REAL NOT NULL,
    PRIMARY KEY (session, position)
) STRICT;

CREATE TABLE history (
    id     INTEGER PRIMARY KEY AUTOINCREMENT,
    at     TEXT NOT NULL, -- RFC 3339, UTC
    who    TEXT NOT NULL,
    what   TEXT NOT NULL,
    before TEXT NOT NULL, -- rows that went, by table, as JSON
    after  TEXT NOT NULL, -- rows that came
    undoes INTEGER REFERENCES history (id)
) STRICT;
