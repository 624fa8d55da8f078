package undersong.estimate.beat;

import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.time.BeatGrid;

/**
 * Where the trained ear hears beats. Its word on the tempo as such is not asked: it often prefers
 * half the rate that kick and snare are tapped at.
 */
final class HeardPulse {
  private static final int NEAR_FRAMES = 2;

  /** What beats that match the ear's weigh against the strokes, in log-odds, when all match. */
  private static final double MATCH_WEIGHT = 20;

  /** What the same match weighs between beat and off-beat, and what else tells them apart. */
  private static final double PHASE_MATCH_WEIGHT = 8;

  private static final double HARMONY_WEIGHT = 20;
  private static final double SECTIONS_WEIGHT = 8;

  /** What it weighs against a way of tapping that the ear hears a bar begin on every beat. */
  private static final double BARS_WEIGHT = 12;

  private final float[] beats;
  private final float[] downbeats;
  private final HarmonyChanges harmony;
  private final SectionStarts sections;

  private HeardPulse(
      float[] beats, float[] downbeats, HarmonyChanges harmony, SectionStarts sections) {
    this.beats = beats;
    this.downbeats = downbeats;
    this.harmony = harmony;
    this.sections = sections;
  }

  static HeardPulse of(EarActivations ear, int frames) {
    FrameMatrix beatHead = ear.head(EarHead.BEAT);
    float[] beats = new float[frames];
    float[] downbeats = new float[frames];
    for (int frame = 0; frame < Math.min(frames, beatHead.frames()); frame++) {
      beats[frame] = beatHead.at(frame, 0);
      downbeats[frame] = beatHead.at(frame, 1);
    }
    return new HeardPulse(beats, downbeats, HarmonyChanges.of(ear, frames), SectionStarts.of(ear));
  }

  /** Probability of a beat on a frame. */
  float at(int frame) {
    return beats[frame];
  }

  /** Log-odds for one way of tapping: its beats are the ear's beats, and not bars. */
  double speaksFor(double[] beatFrames) {
    return MATCH_WEIGHT * match(beatFrames) - BARS_WEIGHT * bars(beatFrames);
  }

  /** Log-odds for tapping on these beats and not half way between them. */
  double speaksForPhase(PulseHypothesis pulse) {
    double more = match(pulse.beatFrames()) - match(pulse.offbeat().beatFrames());
    return PHASE_MATCH_WEIGHT * more
        + HARMONY_WEIGHT * harmony.favor(pulse)
        + SECTIONS_WEIGHT * sections.favor(pulse);
  }

  /** What speaks for one way of tapping, beside what the strokes say. */
  PulseEvidence evidence(BeatGrid beats, double strokes, PulseHypothesis pulse) {
    return new PulseEvidence(
        beats,
        strokes,
        match(pulse.beatFrames()),
        bars(pulse.beatFrames()),
        harmony.favor(pulse),
        sections.favor(pulse));
  }

  /** Harmonic mean of how sure the ear is on these beats, and of how many of its own they are. */
  double match(double[] beatFrames) {
    double on = 0;
    for (double beat : beatFrames) {
      on += strongestNear(beats, beat);
    }
    double heard = 1e-6;
    for (int frame = 1; frame + 1 < beats.length; frame++) {
      boolean peak = beats[frame] >= beats[frame - 1] && beats[frame] > beats[frame + 1];
      heard += peak ? beats[frame] : 0;
    }
    double precision = on / Math.max(1, beatFrames.length);
    double recall = Math.min(1, on / heard);
    return precision + recall == 0 ? 0 : 2 * precision * recall / (precision + recall);
  }

  /**
   * How sure the ear is that bars begin on two beats in a row, in the mean: no meter does that, but
   * one tapped by the bar, as a quick waltz that is taken for slow beats divided in three.
   */
  double bars(double[] beatFrames) {
    double sum = 0;
    for (int beat = 0; beat + 1 < beatFrames.length; beat++) {
      sum +=
          Math.min(
              strongestNear(downbeats, beatFrames[beat]),
              strongestNear(downbeats, beatFrames[beat + 1]));
    }
    return sum / Math.max(1, beatFrames.length - 1);
  }

  private static float strongestNear(float[] heard, double beatFrame) {
    int frame = (int) Math.round(beatFrame);
    float strongest = 0;
    int end = Math.min(heard.length - 1, frame + NEAR_FRAMES);
    for (int i = Math.max(0, frame - NEAR_FRAMES); i <= end; i++) {
      strongest = Math.max(strongest, heard[i]);
    }
    return strongest;
  }
}
