-- Keys of forms that were carried out, and where each led, so that a form that is sent again is answered as it was and
-- changes nothing.
CREATE TABLE used_keys (
    id     INTEGER PRIMARY KEY,
    key    TEXT NOT NULL UNIQUE,
    at     TEXT NOT NULL, -- RFC 3339, UTC
    change INTEGER NOT NULL, -- the book's last change then
    answer TEXT NOT NULL
) STRICT;
