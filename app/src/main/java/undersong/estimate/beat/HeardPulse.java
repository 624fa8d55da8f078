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

  private final float[] beats;
  private final HarmonyChanges harmony;
  private final SectionStarts sections;

  private HeardPulse(float[] beats, HarmonyChanges harmony, SectionStarts sections) {
    this.beats = beats;
    this.harmony = harmony;
    this.sections = sections;
  }

  static HeardPulse of(EarActivations ear, int frames) {
    FrameMatrix beatHead = ear.head(EarHead.BEAT);
    float[] beats = new float[frames];
    for (int frame = 0; frame < Math.min(frames, beatHead.frames()); frame++) {
      beats[frame] = beatHead.at(frame, 0);
    }
    return new HeardPulse(beats, HarmonyChanges.of(ear, frames), SectionStarts.of(ear));
  }

  /** Probability of a beat on a frame. */
  float at(int frame) {
    return beats[frame];
  }

  /** Log-odds for one way of tapping: its beats are the ear's beats. */
  double speaksFor(double[] beatFrames) {
    return MATCH_WEIGHT * match(beatFrames);
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
        beats, strokes, match(pulse.beatFrames()), harmony.favor(pulse), sections.favor(pulse));
  }

  /** Harmonic mean of how sure the ear is on these beats, and of how many of its own they are. */
  double match(double[] beatFrames) {
    double on = 0;
    for (double beat : beatFrames) {
      on += strongestNear((int) Math.round(beat));
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

  private float strongestNear(int frame) {
    float strongest = 0;
    int end = Math.min(beats.length - 1, frame + NEAR_FRAMES);
    for (int i = Math.max(0, frame - NEAR_FRAMES); i <= end; i++) {
      strongest = Math.max(strongest, beats[i]);
    }
    return strongest;
  }
}
