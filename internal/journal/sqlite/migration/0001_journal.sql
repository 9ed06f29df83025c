-- +goose Up

-- "fttl": the mark by which a file is known to be ours.
PRAGMA application_id = 1718908012;

-- Times are milliseconds UTC since 1970. Entries are only ever added.
-- hash is the SHA-256 of the content, as journal.Seal makes it.
CREATE TABLE entry (
    build   TEXT    NOT NULL,
    seq     INTEGER NOT NULL CHECK (seq >= 1),
    id      TEXT    NOT NULL UNIQUE,
    at      INTEGER NOT NULL,
    kept    INTEGER NOT NULL,
    person  TEXT    NOT NULL CHECK (person <> ''),
    device  TEXT    NOT NULL,
    kind    TEXT    NOT NULL CHECK (kind <> ''),
    version INTEGER NOT NULL CHECK (version >= 1),
    change  TEXT    NOT NULL,
    note    TEXT    NOT NULL,
    undoes  TEXT    NOT NULL,
    hash    BLOB    NOT NULL CHECK (length(hash) = 32),
    PRIMARY KEY (build, seq)
) STRICT;

-- A snapshot saves time and may be dropped; saved tells which came last.
CREATE TABLE snapshot (
    saved INTEGER PRIMARY KEY AUTOINCREMENT,
    build TEXT    NOT NULL,
    form  TEXT    NOT NULL,
    seq   INTEGER NOT NULL CHECK (seq >= 1),
    state BLOB    NOT NULL,
    UNIQUE (build, form, seq)
) STRICT;

-- A slip is what a person has put together and not kept yet.
CREATE TABLE slip (
    build  TEXT NOT NULL,
    person TEXT NOT NULL,
    slip   BLOB NOT NULL,
    PRIMARY KEY (build, person)
) STRICT, WITHOUT ROWID;

-- A photo or scan in the vault; hash is SHA-256 in lower-case hex, size in bytes.
CREATE TABLE photo (
    hash   TEXT    NOT NULL PRIMARY KEY CHECK (length(hash) = 64),
    size   INTEGER NOT NULL CHECK (size >= 1),
    media  TEXT    NOT NULL,
    kept   INTEGER NOT NULL,
    person TEXT    NOT NULL CHECK (person <> '')
) STRICT, WITHOUT ROWID;
