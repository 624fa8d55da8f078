package undersong.reading;

/**
 * Beats in a bar as they are tapped, and how each divides.
 *
 * @param beats tapped beats in a bar: 4 in 4/4, 3 in 3/4, 2 in 6/8, 5 in 5/4
 * @param compound whether each beat divides in three (6/8, 12/8)
 */
public record TimeSignature(int beats, boolean compound) {
  public static final TimeSignature FOUR_FOUR = new TimeSignature(4, false);

  public TimeSignature {
    if (beats < 1 || beats > 12) {
      throw new IllegalArgumentException("A bar has 1 to 12 beats, not %d.".formatted(beats));
    }
  }

  /** As written: 4/4, 3/4, 6/8, 12/8. */
  @Override
  public String toString() {
    return compound ? 3 * beats + "/8" : beats + "/4";
  }

  public static TimeSignature parse(String text) {
    String[] numbers = text.strip().split("/", -1);
    try {
      int upper = Integer.parseInt(numbers[0]);
      int lower = numbers.length == 2 ? Integer.parseInt(numbers[1]) : 0;
      if (lower == 4) {
        return new TimeSignature(upper, false);
      }
      if (lower == 8 && upper % 3 == 0) {
        return new TimeSignature(upper / 3, true);
      }
    } catch (NumberFormatException notANumber) {
      // falls through to the one message below
    }
    throw new IllegalArgumentException(
        "Time signature \"%s\" must be like 4/4, 3/4, 5/4, 6/8 or 12/8.".formatted(text));
  }
}
