-- What was found in each song at one revision of its reading: searched, and counted for how common
-- a technique is on this shelf. Found again whenever the reading or the finders are others.
CREATE TABLE found (
  song_id  INTEGER PRIMARY KEY REFERENCES song (id),
  revision INTEGER NOT NULL,
  version  TEXT    NOT NULL
) STRICT;

CREATE TABLE finding (
  song_id       INTEGER NOT NULL REFERENCES found (song_id) ON DELETE CASCADE,
  technique     TEXT    NOT NULL,
  start_seconds REAL    NOT NULL,
  end_seconds   REAL    NOT NULL,
  probability   REAL    NOT NULL
) STRICT;

CREATE INDEX finding_of_song ON finding (song_id, technique);

-- What a listener said of a finding: yes, no, or only own words. It is said of a technique in a
-- stretch of time, so that it holds when the finding is found again. Never rewritten.
CREATE TABLE verdict (
  id            INTEGER PRIMARY KEY AUTOINCREMENT,
  song_id       INTEGER NOT NULL REFERENCES song (id),
  technique     TEXT    NOT NULL,
  start_seconds REAL    NOT NULL,
  end_seconds   REAL    NOT NULL,
  author        TEXT    NOT NULL,
  said_at       TEXT    NOT NULL,
  answer        TEXT    NOT NULL CHECK (answer IN ('yes', 'no', 'words')),
  words         TEXT    NOT NULL,
  taken_back    INTEGER NOT NULL DEFAULT 0 CHECK (taken_back IN (0, 1))
) STRICT;

CREATE INDEX verdict_of_song ON verdict (song_id, id);

-- From here on the ranking forgets the verdicts said before.
CREATE TABLE ranking_reset (
  id           INTEGER PRIMARY KEY AUTOINCREMENT,
  author       TEXT    NOT NULL,
  said_at      TEXT    NOT NULL,
  last_verdict INTEGER NOT NULL
) STRICT;

PRAGMA user_version = 2;
