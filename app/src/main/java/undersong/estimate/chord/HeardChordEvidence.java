package undersong.estimate.chord;

import java.util.Map;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.theory.ChordQuality;

/**
 * Chord evidence from the trained ear: it names root, quality and bass of the chord in each frame,
 * and the pitch classes that sound. Whether anything sounds at all stays measured, not heard.
 */
final class HeardChordEvidence {
  /** A beat of the ear's log-likelihood counts this much: its frames repeat each other. */
  private static final double NAMING_WEIGHT = 2.5;

  private static final double FLOOR = 1e-3;

  /** Bin of no root. */
  private static final int NO_ROOT = 12;

  /** Classes of the quality head that speak for each quality; several add up. */
  private static final Map<ChordQuality, int[]> CLASSES =
      Map.ofEntries(
          Map.entry(ChordQuality.ROOT, new int[] {1}),
          Map.entry(ChordQuality.FIFTH, new int[] {2}),
          Map.entry(ChordQuality.MAJOR, new int[] {3}),
          Map.entry(ChordQuality.MINOR, new int[] {4}),
          Map.entry(ChordQuality.DIMINISHED, new int[] {5}),
          Map.entry(ChordQuality.AUGMENTED, new int[] {6}),
          Map.entry(ChordQuality.SUSPENDED_SECOND, new int[] {7}),
          Map.entry(ChordQuality.SUSPENDED_FOURTH, new int[] {8, 17}),
          Map.entry(ChordQuality.MAJOR_SIXTH, new int[] {9}),
          Map.entry(ChordQuality.MINOR_SIXTH, new int[] {10}),
          Map.entry(ChordQuality.DOMINANT_SEVENTH, new int[] {11}),
          Map.entry(ChordQuality.MAJOR_SEVENTH, new int[] {12}),
          Map.entry(ChordQuality.MINOR_SEVENTH, new int[] {13}),
          Map.entry(ChordQuality.HALF_DIMINISHED_SEVENTH, new int[] {15}),
          Map.entry(ChordQuality.DIMINISHED_SEVENTH, new int[] {16}));

  private HeardChordEvidence() {}

  /** The measured evidence with what the ear heard in place of it, step by step. */
  static ChordEvidence of(EarActivations ear, StepGrid grid, ChordEvidence measured) {
    FrameMatrix root = ear.head(EarHead.CHORD_ROOT);
    FrameMatrix quality = ear.head(EarHead.CHORD_QUALITY);
    FrameMatrix bassHead = ear.head(EarHead.CHORD_BASS);
    FrameMatrix members = ear.head(EarHead.PITCH_CLASSES);
    int steps = grid.steps();
    float[][] states = new float[steps][ChordStates.COUNT];
    float[][] pitchClasses = new float[steps][12];
    float[][] bass = new float[steps][12];
    boolean[] sounding = new boolean[steps];
    for (int step = 0; step < steps; step++) {
      sounding[step] = measured.sounds(step);
      int from = frame(root, grid.startSeconds(step));
      int to = Math.max(from + 1, frame(root, grid.endSeconds(step)));
      double[] roots = meanLog(root, from, to);
      double[] qualities = meanLogOfQualities(quality, from, to);
      for (int state = 0; state < ChordStates.NO_CHORD; state++) {
        double naming =
            roots[ChordStates.root(state)] + qualities[state % ChordStates.QUALITIES.size()];
        states[step][state] = (float) (NAMING_WEIGHT * naming);
      }
      double nothing = roots[NO_ROOT] + qualities[ChordStates.QUALITIES.size()];
      states[step][ChordStates.NO_CHORD] = (float) (NAMING_WEIGHT * nothing);
      for (int c = 0; c < 12; c++) {
        double p = mean(members, c, from, to);
        pitchClasses[step][c] = (float) Math.log((p + FLOOR) / (1 - p + FLOOR));
        bass[step][c] = (float) mean(bassHead, c, from, to);
      }
    }
    return new ChordEvidence(pitchClasses, bass, sounding, states);
  }

  private static int frame(FrameMatrix head, double seconds) {
    int frame = (int) Math.round(seconds * head.clock().framesPerSecond());
    return Math.max(0, Math.min(head.frames() - 1, frame));
  }

  private static double mean(FrameMatrix head, int bin, int from, int to) {
    double sum = 0;
    int end = Math.min(to, head.frames());
    for (int t = from; t < end; t++) {
      sum += head.at(t, bin);
    }
    return Math.min(1, sum / Math.max(1, end - from));
  }

  private static double[] meanLog(FrameMatrix head, int from, int to) {
    double[] sums = new double[head.bins()];
    int end = Math.min(to, head.frames());
    for (int t = from; t < end; t++) {
      for (int bin = 0; bin < sums.length; bin++) {
        sums[bin] += Math.log(head.at(t, bin) + FLOOR) / Math.max(1, end - from);
      }
    }
    return sums;
  }

  /** Mean log-probability of each quality of the decoder, and of no chord last. */
  private static double[] meanLogOfQualities(FrameMatrix head, int from, int to) {
    double[] sums = new double[ChordStates.QUALITIES.size() + 1];
    int end = Math.min(to, head.frames());
    for (int t = from; t < end; t++) {
      for (int q = 0; q < ChordStates.QUALITIES.size(); q++) {
        double p = FLOOR;
        for (int bin : CLASSES.get(ChordStates.QUALITIES.get(q))) {
          p += head.at(t, bin);
        }
        sums[q] += Math.log(p) / Math.max(1, end - from);
      }
      sums[sums.length - 1] += Math.log(head.at(t, 0) + FLOOR) / Math.max(1, end - from);
    }
    return sums;
  }
}
