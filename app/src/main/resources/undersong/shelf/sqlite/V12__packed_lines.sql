-- The lines are written otherwise from here on, packed; they are made again from the readings.
DELETE FROM search_line;

PRAGMA user_version = 12;
