package undersong.bench.metrics;

/**
 * A value that holds over a stretch of time.
 *
 * @param startSeconds from the first sample
 * @param endSeconds later than the start
 */
public record Timed<T>(double startSeconds, double endSeconds, T value) {
  public Timed {
    if (!(endSeconds > startSeconds)) {
      throw new IllegalArgumentException(
          "Stretch [%s, %s) with %s must end later than it starts."
              .formatted(startSeconds, endSeconds, value));
    }
  }

  public double lengthSeconds() {
    return endSeconds - startSeconds;
  }

  public double overlapSeconds(double otherStart, double otherEnd) {
    return Math.max(0, Math.min(endSeconds, otherEnd) - Math.max(startSeconds, otherStart));
  }
}
