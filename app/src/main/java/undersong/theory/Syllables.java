package undersong.theory;

import java.util.List;
import undersong.theory.SyllableSettings.Minor;
import undersong.theory.SyllableSettings.Modes;

/**
 * Movable-do syllables, chromatic both ways: do di ra re ri me mi fa fi se sol si le la li te ti. A
 * note that has none of its own (E# in C, Cb in C) is sung as the one it sounds like. Common
 * practice, no source.
 */
public final class Syllables {
  private static final List<String> PLAIN = List.of("do", "re", "mi", "fa", "sol", "la", "ti");
  private static final List<String> RAISED = List.of("di", "ri", "", "fi", "si", "li", "");
  private static final List<String> LOWERED = List.of("", "ra", "me", "", "se", "le", "te");

  private Syllables() {}

  /** The note sung as do in a key. */
  public static NoteName doOf(Key key, SyllableSettings settings) {
    Mode mode = key.mode();
    boolean signatureTells =
        mode.isMinor()
            ? settings.minor() == Minor.LA_BASED
            : settings.modes() == Modes.OWN_SYLLABLE;
    if (signatureTells) {
      return key.relativeMajor().tonic();
    }
    boolean likeLaBasedMinor = mode.hasMinorThird() && settings.minor() == Minor.LA_BASED;
    return likeLaBasedMinor ? key.tonic().up(-3) : key.tonic();
  }

  /** The syllable of a note in a key. */
  public static String print(NoteName note, Key key, SyllableSettings settings) {
    NoteName doName = doOf(key, settings);
    String own = own(doName, note);
    return own.isEmpty()
        ? own(doName, NoteName.ofPitchClass(note.pitchClass(), doName.fifths()))
        : own;
  }

  /** The syllable of a degree of the key's tonic. */
  public static String print(ScaleDegree degree, Key key, SyllableSettings settings) {
    return print(degree.above(key.tonic()), key, settings);
  }

  private static String own(NoteName doName, NoteName note) {
    ChordDegree degree = ChordDegree.between(doName, note.up(sameSound(doName, note)));
    int step = degree.number() - 1;
    return switch (degree.alteration()) {
      case 0 -> PLAIN.get(step);
      case 1 -> RAISED.get(step);
      case -1 -> LOWERED.get(step);
      default -> "";
    };
  }

  /** Fifths that bring a far spelling near enough to be named; 0 for the usual ones. */
  private static int sameSound(NoteName doName, NoteName note) {
    int distance = note.fifths() - doName.fifths();
    return distance > 19 ? -12 : distance < -15 ? 12 : 0;
  }

  /** The note a syllable means in a key; "so" is read as "sol". Throws on anything else. */
  public static NoteName parse(String syllable, Key key, SyllableSettings settings) {
    String wanted = syllable.equals("so") ? "sol" : syllable;
    NoteName doName = doOf(key, settings);
    for (int step = 0; step < 7; step++) {
      int alteration =
          wanted.equals(PLAIN.get(step))
              ? 0
              : wanted.equals(RAISED.get(step)) ? 1 : wanted.equals(LOWERED.get(step)) ? -1 : 2;
      if (alteration != 2 && !wanted.isEmpty()) {
        return new ScaleDegree(step + 1, alteration).above(doName);
      }
    }
    throw new IllegalArgumentException(
        "Syllable \"%s\" must be one of do di ra re ri me mi fa fi se sol si le la li te ti."
            .formatted(syllable));
  }
}
