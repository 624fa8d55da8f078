package undersong.exchange;

import java.util.OptionalDouble;

/**
 * One note a teacher wrote down beside a recording.
 *
 * @param startSeconds from the start of the recording
 * @param endSeconds later than the start; empty where it is said of a moment
 * @param words never blank
 */
public record TimedNote(double startSeconds, OptionalDouble endSeconds, String words) {
  public TimedNote {
    if (!(startSeconds >= 0 && Double.isFinite(startSeconds))) {
      throw new IllegalArgumentException(
          "A note at %s s must begin at or after 0 s.".formatted(startSeconds));
    }
    if (endSeconds.isPresent() && !(endSeconds.getAsDouble() > startSeconds)) {
      throw new IllegalArgumentException(
          "A note from %s s to %s s must end later than it begins."
              .formatted(startSeconds, endSeconds.getAsDouble()));
    }
    if (words.isBlank()) {
      throw new IllegalArgumentException(
          "The note at %s s has no words; every note needs some.".formatted(startSeconds));
    }
  }
}
