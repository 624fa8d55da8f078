-- The listener's own time-stamped notes. Rows are never deleted: taking one away only marks it.
CREATE TABLE remark (
  id            INTEGER PRIMARY KEY AUTOINCREMENT,
  song_id       INTEGER NOT NULL REFERENCES song (id),
  author        TEXT    NOT NULL,
  said_at       TEXT    NOT NULL,
  start_seconds REAL    NOT NULL CHECK (start_seconds >= 0),
  -- NULL: said of a moment
  end_seconds   REAL    CHECK (end_seconds > start_seconds),
  words         TEXT    NOT NULL CHECK (words <> ''),
  withdrawn     INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1))
) STRICT;

CREATE INDEX remark_of_song ON remark (song_id, start_seconds);

-- What a listener heard for themselves, beside the reading: kept, and in force only where it was
-- said as a correction too.
CREATE TABLE hearing (
  id        INTEGER PRIMARY KEY AUTOINCREMENT,
  song_id   INTEGER NOT NULL REFERENCES song (id),
  author    TEXT    NOT NULL,
  said_at   TEXT    NOT NULL,
  json      TEXT    NOT NULL CHECK (json_valid(json)),
  decision  TEXT    NOT NULL DEFAULT 'OPEN' CHECK (decision IN ('OPEN', 'MINE', 'PROGRAM', 'BOTH')),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1))
) STRICT;

CREATE INDEX hearing_of_song ON hearing (song_id, id);

CREATE TABLE setting (
  name TEXT PRIMARY KEY,
  json TEXT NOT NULL CHECK (json_valid(json))
) STRICT;

-- Recordings on their way to the shelf, so that a killed program goes on where it was.
CREATE TABLE arrival (
  id         INTEGER PRIMARY KEY AUTOINCREMENT,
  name       TEXT    NOT NULL,
  path       TEXT    NOT NULL,
  arrived_at TEXT    NOT NULL,
  state      TEXT    NOT NULL CHECK (state IN ('WAITING', 'WORKING', 'DONE', 'FAILED', 'CANCELLED')),
  song_id    INTEGER REFERENCES song (id),
  message    TEXT    NOT NULL DEFAULT ''
) STRICT;

PRAGMA user_version = 3;
