package undersong.render.score;

/** A score that cannot be read, with the line where it went wrong. */
public final class ScoreException extends IllegalArgumentException {
  private static final long serialVersionUID = 1L;

  private final int line;

  ScoreException(int line, String message) {
    super("Line %d: %s".formatted(line, message));
    this.line = line;
  }

  /** From 1. */
  public int line() {
    return line;
  }
}
