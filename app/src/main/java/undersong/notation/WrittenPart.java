package undersong.notation;

import java.util.List;

/**
 * One part of a score.
 *
 * @param name as the reading names it: melody, bass, voice-2 ...
 * @param clef it is read in
 * @param bars the same number in every part of a score
 */
public record WrittenPart(String name, Clef clef, List<WrittenBar> bars) {
  public WrittenPart {
    bars = List.copyOf(bars);
  }

  /** Where the notes stand on the staff; the low clef is written an octave above its sound. */
  public enum Clef {
    TREBLE,
    TREBLE_OCTAVE_DOWN,
    BASS,
    BASS_OCTAVE_DOWN
  }
}
