package undersong.trend;

import java.util.function.Predicate;
import undersong.technique.Technique;

/**
 * What is counted: a technique, or numerals in a row.
 *
 * @param words for people
 * @param in whether a song has it
 */
public record Counted(String words, Predicate<CountedSong> in) {
  /** A technique of the catalogue. */
  public static Counted technique(Technique technique) {
    return new Counted(
        technique.id().replace('-', ' '), song -> song.techniques().contains(technique.id()));
  }

  /**
   * Numerals in a row anywhere in a song, as the listener's ear groups them: without sevenths and
   * inversions, held against the major scale; a chord played on does not count twice.
   *
   * @param text such as {@code I iii IV iv}; throws where a word is no numeral or there is none
   */
  public static Counted progression(String text) {
    String row = NumeralLine.typed(text);
    if (row.strip().indexOf(' ') < 0) {
      throw new IllegalArgumentException(
          "\"%s\" must be two numerals or more, such as I iii IV iv; one chord is no progression."
              .formatted(text));
    }
    return new Counted(row.strip(), song -> song.numerals().contains(row));
  }
}
