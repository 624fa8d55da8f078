package undersong.reading;

/**
 * A length in notation, as a fraction of a whole note: 1/4 a quarter, 3/16 a dotted eighth, 1/12 an
 * eighth triplet.
 */
public record NoteValue(int numerator, int denominator) {
  public NoteValue {
    if (numerator < 1 || denominator < 1) {
      throw new IllegalArgumentException(
          "Note value %d/%d needs numbers from 1.".formatted(numerator, denominator));
    }
  }

  public double wholeNotes() {
    return (double) numerator / denominator;
  }

  @Override
  public String toString() {
    return numerator + "/" + denominator;
  }
}
