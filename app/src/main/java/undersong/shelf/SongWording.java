package undersong.shelf;

import java.time.Instant;

/** Title, artist and year as somebody once said them. */
public record SongWording(String author, Instant saidAt, Song.Words words) {}
