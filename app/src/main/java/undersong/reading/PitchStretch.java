package undersong.reading;

import java.util.List;

/**
 * The pitch of a voice while it sounds without a break.
 *
 * @param startSeconds of the first pitch
 * @param stepSeconds between pitches
 * @param midiPitches 69 = A4 = 440 Hz, with fractions: glides and vibrato are kept
 */
public record PitchStretch(double startSeconds, double stepSeconds, List<Double> midiPitches) {
  public PitchStretch {
    if (!(startSeconds >= 0 && stepSeconds > 0) || midiPitches.isEmpty()) {
      throw new IllegalArgumentException(
          "Pitch stretch (start %s s, step %s s, %d pitches) needs a start from 0, a positive step and a pitch."
              .formatted(startSeconds, stepSeconds, midiPitches.size()));
    }
    midiPitches = List.copyOf(midiPitches);
  }

  public double endSeconds() {
    return startSeconds + stepSeconds * midiPitches.size();
  }
}
