-- Each line of history carries a checksum over itself and the line before, so that a byte that changes is noticed.
-- Lines that are here already get theirs right after this step.
ALTER TABLE history ADD COLUMN sum TEXT NOT NULL DEFAULT '';
