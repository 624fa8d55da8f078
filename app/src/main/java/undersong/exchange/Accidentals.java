package undersong.exchange;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import undersong.notation.WrittenBar;
import undersong.notation.WrittenNote;
import undersong.theory.NoteName;
import undersong.theory.SpelledPitch;

/**
 * Which signs stand before the notes of a bar: where a note departs from the signature or from what
 * stood before it in the bar, at its own octave. A note held over carries none. Common practice.
 */
final class Accidentals {
  private static final String[] NAMES = {"flat-flat", "flat", "natural", "sharp", "double-sharp"};
  private static final String IN_ORDER = "FCGDAEB";

  private Accidentals() {}

  /** Values of accidental-value in MusicXML 4.0, one a sign of the bar; "" for none. */
  static List<String> of(WrittenBar bar) {
    int signature = Math.max(-7, Math.min(7, bar.key().signatureFifths()));
    Map<String, Integer> inForce = new HashMap<>();
    List<String> signs = new ArrayList<>();
    for (WrittenNote note : bar.notes()) {
      if (note.isRest() || !note.begins()) {
        signs.add("");
        continue;
      }
      SpelledPitch pitch = note.pitch().orElseThrow();
      NoteName name = pitch.name();
      String place = name.letter() + " " + pitch.octave();
      int before = inForce.getOrDefault(place, bySignature(name.letter(), signature));
      int accidental = name.accidental();
      boolean printed = accidental != before && Math.abs(accidental) <= 2;
      signs.add(printed ? NAMES[accidental + 2] : "");
      inForce.put(place, accidental);
    }
    return signs;
  }

  private static int bySignature(char letter, int fifths) {
    int place = IN_ORDER.indexOf(letter);
    if (fifths > place) {
      return 1;
    }
    return place >= 7 + fifths ? -1 : 0;
  }
}
