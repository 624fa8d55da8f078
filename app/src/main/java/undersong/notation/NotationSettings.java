package undersong.notation;

import undersong.theory.NumeralSettings;
import undersong.theory.SyllableSettings;
import undersong.theory.TransposingInstrument;

/**
 * How a reader wants a score.
 *
 * @param instrument for whom everything is written; chords and keys move with the notes
 */
public record NotationSettings(
    NumeralSettings numerals, SyllableSettings syllables, TransposingInstrument instrument) {
  public static final NotationSettings DEFAULTS =
      new NotationSettings(
          NumeralSettings.DEFAULTS, SyllableSettings.DEFAULTS, TransposingInstrument.CONCERT);
}
