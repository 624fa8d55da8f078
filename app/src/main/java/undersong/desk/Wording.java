package undersong.desk;

import java.util.List;
import java.util.Optional;
import undersong.theory.ChordQuality;
import undersong.theory.ChordSymbol;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.Key;
import undersong.theory.LeadSheet;
import undersong.theory.NoteLanguage;
import undersong.theory.NoteName;
import undersong.theory.NumeralSettings;
import undersong.theory.Numerals;
import undersong.theory.RomanNumeral;
import undersong.theory.ScaleDegree;
import undersong.theory.SpelledPitch;
import undersong.theory.Spelling;
import undersong.theory.SyllableSettings;
import undersong.theory.Syllables;
import undersong.theory.TransposingInstrument;

/** Puts music into the words one reader has chosen. */
record Wording(
    SyllableSettings syllables,
    NumeralSettings numerals,
    NoteLanguage names,
    TransposingInstrument instrument) {
  static final Wording DEFAULTS =
      new Wording(
          SyllableSettings.DEFAULTS,
          NumeralSettings.DEFAULTS,
          NoteLanguage.ENGLISH,
          TransposingInstrument.CONCERT);

  String key(Key key) {
    return names.print(instrument.written(key));
  }

  /** A root that sounds alone is said in words. */
  String chord(ChordSymbol sounding, Key key) {
    return LeadSheet.say(instrument.written(sounding, key), names);
  }

  List<String> notes(Chord sounding, Key key) {
    return sounding.tones().stream().map(note -> name(note, key)).toList();
  }

  String name(NoteName sounding, Key key) {
    return names.print(instrument.written(sounding, key));
  }

  /** A pitch with its octave, spelled in its key and chord. */
  String pitch(int midi, Key key, ChordSymbol chord) {
    SpelledPitch sounding = Spelling.pitch(midi, key, chord);
    return names.print(instrument.written(sounding, key));
  }

  String syllable(NoteName sounding, Key key) {
    return Syllables.print(sounding, key, syllables);
  }

  static String degree(NoteName sounding, Key key) {
    return ScaleDegree.of(key.tonic(), sounding).toString();
  }

  /** A numeral; a root that sounds alone goes by its degree. */
  String numeral(RomanNumeral numeral, Key key) {
    return numeral.quality() == ChordQuality.ROOT
        ? numeral.root().toString()
        : Numerals.print(numeral, key, numerals);
  }

  /** The numeral a chord would have in a key; empty where no chord sounds. */
  Optional<String> numeral(ChordSymbol symbol, Key key) {
    return symbol instanceof Chord chord
        ? Optional.of(numeral(Numerals.of(chord, key), key))
        : Optional.empty();
  }
}
