package undersong.trend;

import java.util.List;
import java.util.Optional;
import undersong.reading.Facet;
import undersong.reading.Harmony;
import undersong.reading.HarmonyEvent;
import undersong.reading.Reading;
import undersong.theory.ChordQuality;
import undersong.theory.Key;
import undersong.theory.NumeralSettings;
import undersong.theory.Numerals;
import undersong.theory.RomanNumeral;
import undersong.theory.ScaleDegree;

/** The chords of a song as one line of plain numerals. */
public final class NumeralLine {
  /** Raise when equal readings would give another line. */
  public static final String VERSION = "1";

  private static final Key REFERENCE = Key.parse("C major");

  private NumeralLine() {}

  /**
   * A blank around each numeral, a bar where the key changes; what is played on counts once; where
   * no chord sounds nothing stands. Needs HARMONY; {@code " "} without it.
   */
  public static String of(Reading reading) {
    StringBuilder line = new StringBuilder(" ");
    Key key = null;
    String before = "";
    for (HarmonyEvent event : reading.find(Facet.HARMONY).map(Harmony::events).orElse(List.of())) {
      if (event.numeral().isEmpty()) {
        continue;
      }
      if (key != null && !key.tonic().equals(event.key().tonic())) {
        line.append("| ");
        before = "";
      }
      key = event.key();
      String numeral = plain(event.numeral().get());
      if (!numeral.equals(before)) {
        line.append(numeral).append(' ');
      }
      before = numeral;
    }
    return line.toString();
  }

  /**
   * Typed numerals as they would stand in a line, blanks around; throws where a word is none.
   * {@code " "} for none.
   */
  public static String typed(String text) {
    StringBuilder row = new StringBuilder(" ");
    String before = "";
    for (String word : Numerals.split(text)) {
      String numeral = plainOf(word);
      if (!numeral.equals(before)) {
        row.append(numeral).append(' ');
      }
      before = numeral;
    }
    return row.toString();
  }

  private static String plainOf(String word) {
    try {
      return plain(Numerals.parse(word, REFERENCE, NumeralSettings.DEFAULTS));
    } catch (IllegalArgumentException notOne) {
      throw new IllegalArgumentException(
          "\"%s\" is no Roman numeral: %s".formatted(word, notOne.getMessage()), notOne);
    }
  }

  /** Degree and third (or diminished, augmented) only. Applied chords stand on their own degree. */
  static String plain(RomanNumeral numeral) {
    ScaleDegree root =
        numeral
            .appliedTo()
            .map(
                target ->
                    ScaleDegree.of(
                        REFERENCE.tonic(), numeral.root().above(target.above(REFERENCE.tonic()))))
            .orElse(numeral.root());
    return Numerals.print(
        new RomanNumeral(root, triad(numeral.quality()), root, Optional.empty()),
        REFERENCE,
        NumeralSettings.DEFAULTS);
  }

  private static ChordQuality triad(ChordQuality quality) {
    boolean flat = quality.contains(6) && !quality.contains(7);
    boolean sharp = quality.contains(8) && !quality.contains(7);
    if (quality.hasMinorThird()) {
      return flat ? ChordQuality.DIMINISHED : ChordQuality.MINOR;
    }
    if (quality.hasMajorThird()) {
      return sharp ? ChordQuality.AUGMENTED : ChordQuality.MAJOR;
    }
    return ChordQuality.FIFTH;
  }
}
