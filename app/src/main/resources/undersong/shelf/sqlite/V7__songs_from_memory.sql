-- What a listener remembers of songs they have no recording of: their word, unchecked until a
-- recording is put beside it. Never rewritten, but for the recording.
CREATE TABLE memory (
  song_id      INTEGER PRIMARY KEY REFERENCES song (id),
  author       TEXT    NOT NULL,
  said_at      TEXT    NOT NULL,
  numerals     TEXT    NOT NULL,
  syllables    TEXT    NOT NULL,
  -- ids of the catalogue, a blank between
  techniques   TEXT    NOT NULL,
  words        TEXT    NOT NULL,
  -- NULL: unchecked
  recording_id INTEGER REFERENCES song (id)
) STRICT;

PRAGMA user_version = 7;
