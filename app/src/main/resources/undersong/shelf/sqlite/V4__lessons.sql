-- Lessons on songs. Every version that was saved is kept; taking a lesson away only marks it.
CREATE TABLE lesson (
  id        INTEGER PRIMARY KEY AUTOINCREMENT,
  song_id   INTEGER NOT NULL REFERENCES song (id),
  withdrawn INTEGER NOT NULL DEFAULT 0 CHECK (withdrawn IN (0, 1))
) STRICT;

CREATE INDEX lesson_of_song ON lesson (song_id, id);

CREATE TABLE lesson_version (
  lesson_id INTEGER NOT NULL REFERENCES lesson (id),
  version   INTEGER NOT NULL CHECK (version >= 1),
  author    TEXT    NOT NULL,
  saved_at  TEXT    NOT NULL,
  json      TEXT    NOT NULL CHECK (json_valid(json)),
  PRIMARY KEY (lesson_id, version)
) STRICT;

PRAGMA user_version = 4;
