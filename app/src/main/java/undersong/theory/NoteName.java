package undersong.theory;

/**
 * A spelled pitch class: letter and accidental without octave (C, F#, Bb), held as its place on the
 * line of fifths (F = -1, C = 0, G = 1, F# = 6, Bb = -2).
 */
public record NoteName(int fifths) {
  private static final String LETTERS_BY_FIFTHS = "FCGDAEB";
  private static final int[] PITCH_CLASS_OF_LETTER = {5, 0, 7, 2, 9, 4, 11};

  public NoteName {
    if (fifths < -22 || fifths > 26) {
      throw new IllegalArgumentException(
          "Note name at %d fifths from C needs more than three accidentals.".formatted(fifths));
    }
  }

  /** Parses "C", "F#", "Bb", "Ebb", "F##"; throws on anything else. */
  public static NoteName parse(String text) {
    int letter = text.isEmpty() ? -1 : LETTERS_BY_FIFTHS.indexOf(text.charAt(0));
    if (letter < 0) {
      throw new IllegalArgumentException(
          "Note name \"%s\" must begin with a letter A to G.".formatted(text));
    }
    int accidental = 0;
    for (char sign : text.substring(1).toCharArray()) {
      if (sign != '#' && sign != 'b') {
        throw new IllegalArgumentException(
            "Note name \"%s\" may hold only # or b after its letter.".formatted(text));
      }
      accidental += sign == '#' ? 1 : -1;
    }
    return new NoteName(letter - 1 + 7 * accidental);
  }

  public char letter() {
    return LETTERS_BY_FIFTHS.charAt(Math.floorMod(fifths + 1, 7));
  }

  /** Sharps (positive) or flats (negative). */
  public int accidental() {
    return Math.floorDiv(fifths + 1, 7);
  }

  /** 0 to 11, C = 0. */
  public int pitchClass() {
    return Math.floorMod(PITCH_CLASS_OF_LETTER[Math.floorMod(fifths + 1, 7)] + accidental(), 12);
  }

  /** The note that many fifths higher on the line (negative: lower). */
  public NoteName up(int moreFifths) {
    return new NoteName(fifths + moreFifths);
  }

  /** Spelled near a center on the line of fifths: the name within [center - 5, center + 6]. */
  public static NoteName ofPitchClass(int pitchClass, int centerFifths) {
    int place = Math.floorMod(7 * pitchClass, 12);
    int low = centerFifths - 5;
    return new NoteName(low + Math.floorMod(place - low, 12));
  }

  @Override
  public String toString() {
    int accidental = accidental();
    return letter() + (accidental >= 0 ? "#" : "b").repeat(Math.abs(accidental));
  }
}
