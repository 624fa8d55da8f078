-- What is searched of each song's reading: chords, tune and bass seen from the key, as text. Written
-- with the reading, in one step, so that a search never answers from an older one.
CREATE TABLE search_line (
  song_id  INTEGER PRIMARY KEY REFERENCES song (id),
  revision INTEGER NOT NULL,
  lines    TEXT    NOT NULL
) STRICT;

-- Searches worth asking again.
CREATE TABLE saved_search (
  name    TEXT PRIMARY KEY,
  query   TEXT NOT NULL,
  said_at TEXT NOT NULL
) STRICT;

CREATE INDEX finding_of_technique ON finding (technique, probability, song_id);

PRAGMA user_version = 8;
