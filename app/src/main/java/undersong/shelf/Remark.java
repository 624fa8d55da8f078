package undersong.shelf;

import java.time.Instant;
import java.util.OptionalDouble;

/**
 * The listener's own note about a moment or a stretch of a song.
 *
 * @param endSeconds empty where it is said of a moment
 */
public record Remark(
    long id,
    String author,
    Instant saidAt,
    double startSeconds,
    OptionalDouble endSeconds,
    String words) {}
