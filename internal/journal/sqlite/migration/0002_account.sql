-- +goose Up

-- A person who may sign in. role: 1 guest, 2 crew, 3 owner. pin: 1 when the
-- hash is of digits for the keypad. changed: when the hash was last set,
-- milliseconds UTC.
CREATE TABLE account (
    id      TEXT    NOT NULL PRIMARY KEY CHECK (id <> ''),
    code    TEXT    NOT NULL UNIQUE CHECK (code <> ''),
    name    TEXT    NOT NULL CHECK (name <> ''),
    role    INTEGER NOT NULL CHECK (role BETWEEN 1 AND 3),
    pin     INTEGER NOT NULL CHECK (pin IN (0, 1)),
    hash    TEXT    NOT NULL CHECK (hash <> ''),
    changed INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

-- A tablet that is signed in. token is the SHA-256 of what the tablet holds,
-- so that the file does not let its reader in; ends is milliseconds UTC.
CREATE TABLE session (
    token BLOB    NOT NULL PRIMARY KEY CHECK (length(token) = 32),
    data  BLOB    NOT NULL,
    ends  INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE INDEX session_ends ON session (ends);
