-- One row per recording, known by its sound and not by where it lies.
CREATE TABLE song (
  id               INTEGER PRIMARY KEY AUTOINCREMENT,
  content_hash     TEXT    NOT NULL UNIQUE,
  path             TEXT    NOT NULL,
  duration_seconds REAL    NOT NULL CHECK (duration_seconds > 0),
  -- what the file says of itself; '' and 0 where it says nothing
  tag_title        TEXT    NOT NULL,
  tag_artist       TEXT    NOT NULL,
  tag_year         INTEGER NOT NULL,
  -- what the listener said instead; NULL where nothing was said
  said_title       TEXT,
  said_artist      TEXT,
  said_year        INTEGER,
  studied_at       TEXT    NOT NULL
) STRICT;

-- Corrections said at one time: one step to take back. Rows are never deleted or rewritten, except
-- for the mark that says a step was taken back.
CREATE TABLE step (
  id         INTEGER PRIMARY KEY AUTOINCREMENT,
  song_id    INTEGER NOT NULL REFERENCES song (id),
  author     TEXT    NOT NULL,
  said_at    TEXT    NOT NULL,
  -- NULL: in force; otherwise rises with every taking back, so that the last is brought back first
  taken_back INTEGER,
  -- 1 until something new is said after it was taken back
  redoable   INTEGER NOT NULL DEFAULT 0 CHECK (redoable IN (0, 1))
) STRICT;

CREATE INDEX step_of_song ON step (song_id, id);

CREATE TABLE correction (
  id      INTEGER PRIMARY KEY AUTOINCREMENT,
  step_id INTEGER NOT NULL REFERENCES step (id),
  json    TEXT    NOT NULL CHECK (json_valid(json))
) STRICT;

CREATE INDEX correction_of_step ON correction (step_id, id);

-- The latest reading of each song, the corrections that were in force when it was derived, and what
-- a list shows of it.
CREATE TABLE reading (
  song_id    INTEGER PRIMARY KEY REFERENCES song (id),
  revision   INTEGER NOT NULL CHECK (revision >= 1),
  in_force   TEXT    NOT NULL CHECK (json_valid(in_force)),
  provenance TEXT    NOT NULL CHECK (json_valid(provenance)),
  json       TEXT    NOT NULL CHECK (json_valid(json)),
  tempo_bpm  REAL    NOT NULL,
  meter      TEXT    NOT NULL,
  main_key   TEXT    NOT NULL
) STRICT;

-- Every migration ends by saying which layout it leaves.
PRAGMA user_version = 1;
