package undersong.shelf;

import java.time.Instant;
import java.util.List;
import java.util.OptionalDouble;

/**
 * The listener's own note about a moment or a stretch of a song.
 *
 * @param author of these words
 * @param endSeconds empty where it is said of a moment
 * @param earlier what it said before it was reworded, oldest first
 */
public record Remark(
    long id,
    String author,
    Instant saidAt,
    double startSeconds,
    OptionalDouble endSeconds,
    String words,
    List<Wording> earlier) {
  /** One earlier wording, and whose it was. */
  public record Wording(
      String author,
      Instant saidAt,
      double startSeconds,
      OptionalDouble endSeconds,
      String words) {}

  public Remark {
    earlier = List.copyOf(earlier);
  }
}
