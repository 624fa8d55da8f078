package undersong.time;

/**
 * A half-open stretch of time, [startSeconds, endSeconds), counted from the first sample of the
 * recording.
 */
public record Span(double startSeconds, double endSeconds) {
  public Span {
    if (!(startSeconds >= 0 && endSeconds > startSeconds && Double.isFinite(endSeconds))) {
      throw new IllegalArgumentException(
          "Span [%s, %s) must start at or after 0 s and end later than it starts."
              .formatted(startSeconds, endSeconds));
    }
  }

  public double lengthSeconds() {
    return endSeconds - startSeconds;
  }

  public double middleSeconds() {
    return (startSeconds + endSeconds) / 2;
  }

  public boolean contains(double seconds) {
    return seconds >= startSeconds && seconds < endSeconds;
  }

  public boolean overlaps(Span other) {
    return overlapSeconds(other) > 0;
  }

  /** Length both have in common; 0 where they do not meet. */
  public double overlapSeconds(Span other) {
    return Math.max(
        0, Math.min(endSeconds, other.endSeconds) - Math.max(startSeconds, other.startSeconds));
  }
}
