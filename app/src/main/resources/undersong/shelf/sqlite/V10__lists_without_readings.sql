-- A list shows three facts of each reading; beside the reading itself they would be read over
-- hundreds of kilobytes a song.
CREATE INDEX reading_listed ON reading (song_id, tempo_bpm, meter, main_key);

PRAGMA user_version = 10;
