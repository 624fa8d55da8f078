package undersong.technique;

import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.theory.Key;
import undersong.theory.NoteName;
import undersong.theory.SpelledPitch;
import undersong.theory.Spelling;

/** Pitches as they are written in the key that sounds with them: {@code F#5}. */
public final class PitchName {
  private PitchName() {}

  /** Reads KEYS where it is there; without a key C major is assumed. */
  public static String of(double midiPitch, double atSeconds, Reading reading) {
    int nearest = (int) Math.round(midiPitch);
    NoteName name =
        reading
            .find(Facet.KEYS)
            .flatMap(keys -> keys.keyAt(atSeconds))
            .map((Key key) -> Spelling.name(Math.floorMod(nearest, 12), key))
            .orElseGet(() -> NoteName.ofPitchClass(Math.floorMod(nearest, 12), 0));
    return SpelledPitch.ofMidi(nearest, name).toString();
  }
}
