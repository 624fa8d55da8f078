package undersong.trend;

import java.util.Arrays;
import java.util.List;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import undersong.technique.Technique;
import undersong.theory.Key;
import undersong.theory.NumeralSettings;
import undersong.theory.Numerals;

/**
 * What is counted: a technique, or numerals in a row.
 *
 * @param words for people
 * @param in whether a song has it
 */
public record Counted(String words, Predicate<CountedSong> in) {
  private static final Pattern BLANKS = Pattern.compile("[\\s,]+");

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
    List<String> numerals =
        Arrays.stream(BLANKS.split(text.strip(), -1))
            .filter(word -> !word.isEmpty())
            .map(Counted::plain)
            .toList();
    if (numerals.size() < 2) {
      throw new IllegalArgumentException(
          "\"%s\" must be two numerals or more, such as I iii IV iv; one chord is no progression."
              .formatted(text));
    }
    String row = " " + String.join(" ", numerals) + " ";
    return new Counted(row.strip(), song -> song.numerals().contains(row));
  }

  private static String plain(String word) {
    try {
      return NumeralLine.plain(
          Numerals.parse(word, Key.parse("C major"), NumeralSettings.DEFAULTS));
    } catch (IllegalArgumentException notOne) {
      throw new IllegalArgumentException(
          "\"%s\" is no Roman numeral: %s".formatted(word, notOne.getMessage()), notOne);
    }
  }
}
