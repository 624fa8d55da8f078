package undersong.cli;

import java.util.Locale;
import undersong.reading.Tuning;
import undersong.time.TimeCode;

/** Times, shares and distances as people say them. */
final class Words {
  private static final double[] FRACTIONS = {0, 0.25, 1 / 3.0, 0.5, 2 / 3.0, 0.75, 1};
  private static final String[] FRACTION_WORDS = {"", "¼", "⅓", "½", "⅔", "¾", ""};

  private Words() {}

  /** Minutes and seconds: 3:07; from one hour on 1:03:07. */
  static String time(double seconds) {
    return TimeCode.minutes(seconds);
  }

  static String percent(double probability) {
    return Math.round(100 * probability) + " %";
  }

  /** A distance in beats, to the nearest quarter or third: ½, 1, 1¼. */
  static String beats(double beats) {
    double size = Math.abs(beats);
    int whole = (int) size;
    int nearest = 0;
    for (int i = 1; i < FRACTIONS.length; i++) {
      if (Math.abs(FRACTIONS[i] - (size - whole)) < Math.abs(FRACTIONS[nearest] - (size - whole))) {
        nearest = i;
      }
    }
    if (nearest == FRACTIONS.length - 1) {
      whole++;
    }
    return (whole == 0 ? "" : Integer.toString(whole)) + FRACTION_WORDS[nearest];
  }

  static String ordinal(int number) {
    int tens = number % 100;
    if (tens >= 11 && tens <= 13) {
      return number + "th";
    }
    return number
        + switch (number % 10) {
          case 1 -> "st";
          case 2 -> "nd";
          case 3 -> "rd";
          default -> "th";
        };
  }

  /** Where the recording's A lies. */
  static String tuning(Tuning tuning) {
    long cents = Math.round(tuning.cents());
    double hertz = 440 * Math.pow(2, tuning.cents() / 1200);
    return cents == 0
        ? "A = 440 Hz"
        : String.format(
            Locale.ROOT,
            "A = %.0f Hz (%d %s %s)",
            hertz,
            Math.abs(cents),
            Math.abs(cents) == 1 ? "cent" : "cents",
            cents > 0 ? "high" : "low");
  }

  /** The first letter large. */
  static String sentence(String words) {
    return words.isEmpty()
        ? words
        : words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }
}
