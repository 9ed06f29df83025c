-- +goose Up

-- Long work: what was asked for, how far it is, and what came of it. Times are
-- milliseconds UTC, 0 for never. It can all be worked out again.
CREATE TABLE work (
    key     TEXT    NOT NULL PRIMARY KEY CHECK (length(key) = 64), -- SHA-256 of kind, version and input
    kind    TEXT    NOT NULL,
    version INTEGER NOT NULL, -- of what works it out
    build   TEXT    NOT NULL,
    person  TEXT    NOT NULL, -- who asked
    what    TEXT    NOT NULL, -- in words
    page    TEXT    NOT NULL, -- that shows it
    input   BLOB    NOT NULL,
    state   TEXT    NOT NULL CHECK (state IN ('waiting', 'working', 'done', 'stopped', 'failed')),
    best    BLOB,             -- the best so far, or the result
    steps   INTEGER NOT NULL DEFAULT 0,
    budget  INTEGER NOT NULL DEFAULT 0,
    figure  TEXT    NOT NULL DEFAULT '', -- of the best so far
    fault   TEXT    NOT NULL DEFAULT '',
    asked   INTEGER NOT NULL,
    begun   INTEGER NOT NULL DEFAULT 0,
    ended   INTEGER NOT NULL DEFAULT 0,
    run     INTEGER NOT NULL DEFAULT 0, -- how often it was begun: only the last run may write
    cuts    INTEGER NOT NULL DEFAULT 0, -- how often the process went down under it
    changed INTEGER NOT NULL            -- goes up with every change of any work
) STRICT;

CREATE INDEX work_build ON work (build, asked);
CREATE INDEX work_state ON work (state, asked);
CREATE INDEX work_changed ON work (changed);
