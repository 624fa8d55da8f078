package undersong.technique;

import undersong.reading.Facet;
import undersong.time.Span;

/** Why a finding is made; each can be played, seen and disputed. */
public sealed interface Evidence {
  /** Play this and listen for that. */
  record Heard(Span span, Sentence listenFor) implements Evidence {}

  /**
   * A number held against a limit.
   *
   * @param quantity what was measured
   * @param bound on which side of the limit the value must lie
   * @param unit a symbol ("dB", "ms", "Hz", "%") or the key of a word ("beats", "semitones",
   *     "bars"); "" for a plain number
   */
  record Measured(Sentence quantity, double value, Bound bound, double limit, String unit)
      implements Evidence {
    public Measured {
      if (!Double.isFinite(value) || !Double.isFinite(limit)) {
        throw new IllegalArgumentException(
            "Measured %s (%s against %s) must be numbers.".formatted(quantity.key(), value, limit));
      }
    }

    public static Measured atLeast(Sentence quantity, double value, double limit, String unit) {
      return new Measured(quantity, value, Bound.AT_LEAST, limit, unit);
    }

    public static Measured atMost(Sentence quantity, double value, double limit, String unit) {
      return new Measured(quantity, value, Bound.AT_MOST, limit, unit);
    }
  }

  /** On which side of a limit. */
  enum Bound {
    AT_LEAST,
    AT_MOST
  }

  /**
   * What stands in the reading.
   *
   * @param value in signs that need no translation: a chord symbol, a numeral, a note, a letter
   */
  record Read(Facet<?> facet, Span span, String value) implements Evidence {}
}
