package undersong.theory;

/**
 * A step of the major scale with an alteration, counted from a tonic: 1, b3, #4, b7.
 *
 * @param step 1 to 7
 * @param alteration semitones up (positive) or down, -2 to 2
 */
public record ScaleDegree(int step, int alteration) {
  private static final int[] MAJOR = {0, 2, 4, 5, 7, 9, 11};
  private static final int[] FIFTHS = {0, 2, 4, -1, 1, 3, 5};

  public ScaleDegree {
    if (step < 1 || step > 7 || alteration < -2 || alteration > 2) {
      throw new IllegalArgumentException(
          "Scale degree (step %d, alteration %d) needs step 1 to 7 and alteration -2 to 2."
              .formatted(step, alteration));
    }
  }

  /** Parses "1", "b3", "#4", "bb7"; throws on anything else. */
  public static ScaleDegree parse(String text) {
    int alteration = 0;
    int i = 0;
    while (i < text.length() && (text.charAt(i) == 'b' || text.charAt(i) == '#')) {
      alteration += text.charAt(i) == '#' ? 1 : -1;
      i++;
    }
    if (i != text.length() - 1 || text.charAt(i) < '1' || text.charAt(i) > '7') {
      throw new IllegalArgumentException(
          "Scale degree \"%s\" must be accidentals and one digit 1 to 7, such as b3."
              .formatted(text));
    }
    return new ScaleDegree(text.charAt(i) - '0', alteration);
  }

  /**
   * The degree a spelled note has above a tonic; throws where three accidentals would be needed.
   */
  public static ScaleDegree of(NoteName tonic, NoteName note) {
    int distance = note.fifths() - tonic.fifths();
    for (int step = 1; step <= 7; step++) {
      int rest = distance - FIFTHS[step - 1];
      if (rest % 7 == 0 && Math.abs(rest / 7) <= 2) {
        return new ScaleDegree(step, rest / 7);
      }
    }
    throw new IllegalArgumentException(
        "%s is too far from the tonic %s on the line of fifths to have a degree."
            .formatted(note, tonic));
  }

  /** 0 to 11 above the tonic. */
  public int semitones() {
    return Math.floorMod(MAJOR[step - 1] + alteration, 12);
  }

  /** The spelled note this degree is above a tonic. */
  public NoteName above(NoteName tonic) {
    return tonic.up(FIFTHS[step - 1] + 7 * alteration);
  }

  @Override
  public String toString() {
    return (alteration >= 0 ? "#" : "b").repeat(Math.abs(alteration)) + step;
  }
}
