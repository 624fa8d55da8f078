package undersong.study;

import undersong.shelf.Song;
import undersong.shelf.StoredReading;

/** A song and what is heard in it. */
public record Studied(Song song, StoredReading stored) {}
