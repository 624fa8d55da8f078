package undersong.technique;

import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;

/** Which techniques can be told from chords, bars and sections alone. */
public final class OnPaper {
  /** Harmony that needs a tune, a sound, or the way a song ends. */
  private static final Set<Technique> HEARD_ONLY =
      EnumSet.of(
          Technique.TENSION_TONE,
          Technique.REINTERPRETED_TONE,
          Technique.HALF_CADENCE,
          Technique.UNRESOLVED_ENDING);

  private static final Set<Technique> OTHER_FAMILIES =
      EnumSet.of(
          Technique.METER_CHANGE,
          Technique.HARMONIC_RHYTHM_CHANGE,
          Technique.IRREGULAR_PHRASE,
          Technique.CHORUS_FIRST);

  private OnPaper() {}

  public static Set<Technique> techniques() {
    Set<Technique> shown = EnumSet.copyOf(OTHER_FAMILIES);
    for (Technique technique : Technique.values()) {
      if (technique.family() == Technique.Family.HARMONY) {
        shown.add(technique);
      }
    }
    shown.removeAll(HEARD_ONLY);
    return Collections.unmodifiableSet(shown);
  }
}
