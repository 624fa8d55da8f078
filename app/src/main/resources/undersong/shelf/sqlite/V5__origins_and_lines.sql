-- Where a song comes from: a recording, a published chart, or somebody's memory. The last two hold
-- no sound. The source says who wrote a chart and under which licence; '' for recordings.
ALTER TABLE song ADD COLUMN origin TEXT NOT NULL DEFAULT 'recording'
  CHECK (origin IN ('recording', 'chart', 'memory'));
ALTER TABLE song ADD COLUMN source TEXT NOT NULL DEFAULT '';

-- What is counted of each song at one revision of its reading: its numerals in order, and how hard
-- its chords are to see coming. Made again whenever the reading or the way of counting is another.
CREATE TABLE harmony_line (
  song_id    INTEGER PRIMARY KEY REFERENCES song (id),
  revision   INTEGER NOT NULL,
  version    TEXT    NOT NULL,
  -- ' I iii IV | ii V ': blanks around each numeral, a bar where the key changes
  numerals   TEXT    NOT NULL,
  -- mean bits a chord; NULL where none sounds
  chord_bits REAL
) STRICT;

PRAGMA user_version = 5;
