-- Raised by every change as its first act. What was written since somebody last looked is found by it.
CREATE TABLE shelf_state (
  only_row INTEGER PRIMARY KEY CHECK (only_row = 1),
  changes  INTEGER NOT NULL
) STRICT;

INSERT INTO shelf_state (only_row, changes) VALUES (1, 1);

-- The change at which a list last had to show the song otherwise.
ALTER TABLE song ADD COLUMN changed INTEGER NOT NULL DEFAULT 1;

CREATE INDEX song_changed ON song (changed);

-- Where a recording lies on the machine of each desk that shares this shelf.
CREATE TABLE song_file (
  song_id INTEGER NOT NULL REFERENCES song (id),
  desk    TEXT    NOT NULL,
  path    TEXT    NOT NULL,
  PRIMARY KEY (song_id, desk)
) STRICT;

-- Which desk brings it in: nobody else can read its copy.
ALTER TABLE arrival ADD COLUMN desk TEXT NOT NULL DEFAULT '';

-- Title, artist and year each time they were said. The song shows the last; the others are kept.
CREATE TABLE song_wording (
  id      INTEGER PRIMARY KEY AUTOINCREMENT,
  song_id INTEGER NOT NULL REFERENCES song (id),
  author  TEXT    NOT NULL,
  said_at TEXT    NOT NULL,
  title   TEXT,
  artist  TEXT,
  year    INTEGER
) STRICT;

CREATE INDEX song_wording_of_song ON song_wording (song_id, id);

-- What a remark said before it was reworded, and who had said that.
CREATE TABLE remark_wording (
  id            INTEGER PRIMARY KEY AUTOINCREMENT,
  remark_id     INTEGER NOT NULL REFERENCES remark (id),
  author        TEXT    NOT NULL,
  said_at       TEXT    NOT NULL,
  start_seconds REAL    NOT NULL,
  end_seconds   REAL,
  words         TEXT    NOT NULL
) STRICT;

CREATE INDEX remark_wording_of_remark ON remark_wording (remark_id, id);

-- Set where a lesson was saved over one that somebody else had saved meanwhile: both are kept.
ALTER TABLE lesson ADD COLUMN beside INTEGER REFERENCES lesson (id);

-- Settings and saved searches are each speaker's own; '' holds what was set before there were several.
CREATE TABLE own_setting (
  author TEXT NOT NULL,
  name   TEXT NOT NULL,
  json   TEXT NOT NULL CHECK (json_valid(json)),
  PRIMARY KEY (author, name)
) STRICT;

INSERT INTO own_setting (author, name, json) SELECT '', name, json FROM setting;
DROP TABLE setting;
ALTER TABLE own_setting RENAME TO setting;

CREATE TABLE own_search (
  name    TEXT NOT NULL,
  author  TEXT NOT NULL,
  query   TEXT NOT NULL,
  said_at TEXT NOT NULL,
  PRIMARY KEY (name, author)
) STRICT;

INSERT INTO own_search (name, author, query, said_at)
  SELECT name, 'listener', query, said_at FROM saved_search;
DROP TABLE saved_search;
ALTER TABLE own_search RENAME TO saved_search;

PRAGMA user_version = 11;
