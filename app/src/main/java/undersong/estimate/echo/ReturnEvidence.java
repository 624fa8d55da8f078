package undersong.estimate.echo;

import java.util.List;
import java.util.Optional;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.reading.NoteEvent;
import undersong.time.BeatGrid;

/**
 * What can be asked of notes that are due again after a lag, beside their pitches and their place.
 *
 * <p><b>Cost:</b> O(notes).
 */
final class ReturnEvidence {
  private static final int LOWEST_MIDI = 21;
  private static final double HELD_FROM_SECONDS = 0.2;
  private static final double HELD_TO_SECONDS = 0.08;
  private static final int PARTIALS = 6;
  private static final double HIGHEST_HZ = 5000;
  private static final double FAINT = 1e-10;

  private final StereoPowers powers;
  private final Optional<FrameMatrix> sustain;
  private final BeatGrid grid;

  ReturnEvidence(StereoPowers powers, Optional<EarActivations> ear, BeatGrid grid) {
    this.powers = powers;
    this.sustain = ear.map(e -> e.head(EarHead.NOTE_SUSTAIN));
    this.grid = grid;
  }

  /** How much the pitches sound just before they are due, 0 to 1: what is held does not begin. */
  double held(List<NoteEvent> notes, double lagSeconds) {
    return notes.stream()
        .mapToDouble(n -> heldBefore(n, n.span().startSeconds() + lagSeconds))
        .average()
        .orElse(0);
  }

  private double heldBefore(NoteEvent note, double due) {
    int bin = (int) Math.round(note.midiPitch()) - LOWEST_MIDI;
    if (sustain.isEmpty() || bin < 0 || bin >= sustain.get().bins()) {
      return 0;
    }
    FrameMatrix held = sustain.get();
    int from = Math.max(0, held.clock().frameAt(due - HELD_FROM_SECONDS));
    int to = Math.min(held.frames() - 1, held.clock().frameAt(due - HELD_TO_SECONDS));
    double sum = 0;
    for (int frame = from; frame <= to; frame++) {
      sum += held.at(frame, bin);
    }
    return to >= from ? sum / (to - from + 1) : 0;
  }

  /** What the partials gain when they are due again against when they first begin; median. */
  double levelDb(List<NoteEvent> notes, double lagSeconds) {
    double[] levels =
        notes.stream()
            .mapToDouble(
                n ->
                    10
                        * Math.log10(
                            (rise(n, n.span().startSeconds() + lagSeconds) + FAINT)
                                / (rise(n, n.span().startSeconds()) + FAINT)))
            .sorted()
            .toArray();
    return levels[levels.length / 2];
  }

  private double rise(NoteEvent note, double seconds) {
    double hertz = 440 * Math.pow(2, (note.midiPitch() - 69) / 12);
    int frame = powers.frameAt(seconds);
    double sum = 0;
    if (frame >= 2 && frame + 2 < powers.frames()) {
      for (int partial = 1; partial <= PARTIALS && partial * hertz < HIGHEST_HZ; partial++) {
        int bin = StereoImage.binOf(partial * hertz);
        double after = Math.max(powers.power(frame + 1, bin), powers.power(frame + 2, bin));
        sum += Math.max(0, after - powers.power(frame - 2, bin));
      }
    }
    return sum;
  }

  /** How far a lag is from whole beats, in beats: a line keeps its place in the beat. */
  double offBeat(double startSeconds, double lagSeconds) {
    if (grid.size() < 2) {
      return 0;
    }
    double beats = grid.positionAt(startSeconds + lagSeconds) - grid.positionAt(startSeconds);
    return Math.abs(beats - Math.rint(beats));
  }
}
