package undersong.estimate.beat;

import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;

/**
 * What the trained ear says of the pulse: where beats fall, and how likely each tempo is over the
 * whole recording.
 */
final class HeardPulse {
  private static final double SLOWEST_BPM = 40;
  private static final int BINS_PER_OCTAVE = 24;
  private static final int NEAR_FRAMES = 2;
  private static final int NEAR_BINS = 1;
  private static final double FLOOR = 0.01;

  /** What the likeliest tempo weighs against the strokes, in log-odds. */
  private static final double TEMPO_WEIGHT = 1.5;

  /** What beats that match the ear's weigh, in log-odds, when all match. */
  private static final double MATCH_WEIGHT = 12;

  private final float[] beats;
  private final double[] tempi;

  private HeardPulse(float[] beats, double[] tempi) {
    this.beats = beats;
    this.tempi = tempi;
  }

  static HeardPulse of(EarActivations ear, int frames) {
    FrameMatrix beatHead = ear.head(EarHead.BEAT);
    float[] beats = new float[frames];
    for (int frame = 0; frame < Math.min(frames, beatHead.frames()); frame++) {
      beats[frame] = beatHead.at(frame, 0);
    }
    FrameMatrix tempoHead = ear.head(EarHead.TEMPO);
    double[] tempi = new double[tempoHead.bins()];
    for (int frame = 0; frame < tempoHead.frames(); frame++) {
      for (int bin = 0; bin < tempi.length; bin++) {
        tempi[bin] += tempoHead.at(frame, bin) / tempoHead.frames();
      }
    }
    return new HeardPulse(beats, tempi);
  }

  /** Probability of a beat on a frame. */
  float at(int frame) {
    return beats[frame];
  }

  /** Log-odds for one way of tapping: its tempo is likely, and its beats are the ear's beats. */
  double speaksFor(double[] beatFrames, double bpm) {
    return TEMPO_WEIGHT * logTempo(bpm) + MATCH_WEIGHT * match(beatFrames);
  }

  /** Logarithm of how likely the ear finds a tempo over the whole recording. */
  double logTempo(double bpm) {
    return Math.log(FLOOR + tempo(bpm));
  }

  private double tempo(double bpm) {
    int bin = (int) Math.round(BINS_PER_OCTAVE * Math.log(bpm / SLOWEST_BPM) / Math.log(2));
    double sum = 0;
    for (int b = Math.max(0, bin - NEAR_BINS);
        b <= Math.min(tempi.length - 1, bin + NEAR_BINS);
        b++) {
      sum += tempi[b];
    }
    return sum;
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
