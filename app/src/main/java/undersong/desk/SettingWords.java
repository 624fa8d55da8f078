package undersong.desk;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import undersong.theory.NoteLanguage;
import undersong.theory.NumeralSettings;
import undersong.theory.NumeralSettings.Inversions;
import undersong.theory.NumeralSettings.MinorReference;
import undersong.theory.SyllableSettings;
import undersong.theory.SyllableSettings.Minor;
import undersong.theory.SyllableSettings.Modes;
import undersong.theory.TransposingInstrument;
import undersong.work.Trouble;

/** The settings that choose words, by their names in requests. */
final class SettingWords {
  private static final String MINOR_SYLLABLES = "minorSyllables";
  private static final String MODE_SYLLABLES = "modeSyllables";
  private static final String MINOR_NUMERALS = "minorNumerals";
  private static final String INVERSIONS = "inversions";
  private static final String NOTE_NAMES = "noteNames";
  private static final String INSTRUMENT = "instrument";

  private static final Map<String, Minor> MINORS =
      named("la", Minor.LA_BASED, "do", Minor.DO_BASED);
  private static final Map<String, Modes> MODES =
      named("own", Modes.OWN_SYLLABLE, "altered", Modes.ALTERED);
  private static final Map<String, MinorReference> REFERENCES = ofEnum(MinorReference.values());
  private static final Map<String, Inversions> INVERSION_STYLES = ofEnum(Inversions.values());
  private static final Map<String, NoteLanguage> LANGUAGES = ofEnum(NoteLanguage.values());
  private static final Map<String, TransposingInstrument> INSTRUMENTS =
      ofEnum(TransposingInstrument.values());

  private SettingWords() {}

  /** The wording as settings. */
  static ObjectNode print(Wording wording) {
    return Json.object()
        .put(MINOR_SYLLABLES, wordOf(MINORS, wording.syllables().minor()))
        .put(MODE_SYLLABLES, wordOf(MODES, wording.syllables().modes()))
        .put(MINOR_NUMERALS, wordOf(REFERENCES, wording.numerals().minorReference()))
        .put(INVERSIONS, wordOf(INVERSION_STYLES, wording.numerals().inversions()))
        .put(NOTE_NAMES, wordOf(LANGUAGES, wording.names()))
        .put(INSTRUMENT, wordOf(INSTRUMENTS, wording.instrument()));
  }

  /**
   * A wording with some settings changed; throws {@link Trouble.WrongUsage} for a word no setting
   * knows.
   *
   * @param given name of a setting to its word; null where it is not to be changed
   */
  static Wording changed(Wording wording, Function<String, String> given) {
    return new Wording(
        new SyllableSettings(
            one(given, MINOR_SYLLABLES, MINORS, wording.syllables().minor()),
            one(given, MODE_SYLLABLES, MODES, wording.syllables().modes())),
        new NumeralSettings(
            one(given, MINOR_NUMERALS, REFERENCES, wording.numerals().minorReference()),
            one(given, INVERSIONS, INVERSION_STYLES, wording.numerals().inversions())),
        one(given, NOTE_NAMES, LANGUAGES, wording.names()),
        one(given, INSTRUMENT, INSTRUMENTS, wording.instrument()));
  }

  private static <T> T one(
      Function<String, String> given, String name, Map<String, T> words, T before) {
    String word = given.apply(name);
    if (word == null) {
      return before;
    }
    T value = words.get(word);
    if (value == null) {
      throw new Trouble.WrongUsage(
          "Setting %s is \"%s\"; it must be one of %s.".formatted(name, word, words.keySet()));
    }
    return value;
  }

  private static <T> Map<String, T> named(String first, T one, String second, T other) {
    Map<String, T> words = new LinkedHashMap<>();
    words.put(first, one);
    words.put(second, other);
    return words;
  }

  /** B_FLAT_LOW is called b-flat-low. */
  private static <T extends Enum<T>> Map<String, T> ofEnum(T[] values) {
    Map<String, T> words = new LinkedHashMap<>();
    for (T value : values) {
      words.put(value.name().toLowerCase(Locale.ROOT).replace('_', '-'), value);
    }
    return words;
  }

  private static <T> String wordOf(Map<String, T> words, T value) {
    return words.entrySet().stream()
        .filter(entry -> entry.getValue().equals(value))
        .findFirst()
        .orElseThrow()
        .getKey();
  }
}
