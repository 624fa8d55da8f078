package undersong.bench.metrics;

import java.util.List;

/**
 * Agreement of several pitches sounding at once, frame by frame.
 *
 * @param substitution errors where a wrong pitch stands for a right one, per reference pitch
 * @param miss reference pitches without any counterpart, per reference pitch
 * @param falseAlarm estimated pitches too many, per reference pitch
 */
public record MultiPitchMetrics(
    PrecisionRecall score, double accuracy, double substitution, double miss, double falseAlarm) {
  /**
   * Source: G. Poliner, D. Ellis, "A Discriminative Model for Polyphonic Piano Transcription",
   * EURASIP J. Advances in Signal Processing, 2007.
   *
   * @param reference MIDI pitches in each frame
   * @param estimated in as many frames, already at the reference's times
   * @param octavesForgiven compare pitch classes
   */
  public static MultiPitchMetrics of(
      List<double[]> reference, List<double[]> estimated, boolean octavesForgiven) {
    if (reference.size() != estimated.size()) {
      throw new IllegalArgumentException(
          "%d reference frames against %d estimated ones; resample first."
              .formatted(reference.size(), estimated.size()));
    }
    int right = 0;
    int references = 0;
    int estimates = 0;
    int substituted = 0;
    int missed = 0;
    int extra = 0;
    for (int frame = 0; frame < reference.size(); frame++) {
      double[] truth = reference.get(frame);
      double[] guess = estimated.get(frame);
      int hits =
          Matching.count(
              Matching.maximum(
                  truth.length,
                  guess.length,
                  (r, e) -> distance(truth[r], guess[e], octavesForgiven) <= 0.5));
      right += hits;
      references += truth.length;
      estimates += guess.length;
      substituted += Math.min(truth.length, guess.length) - hits;
      missed += Math.max(0, truth.length - guess.length);
      extra += Math.max(0, guess.length - truth.length);
    }
    double all = Math.max(1, references);
    return new MultiPitchMetrics(
        PrecisionRecall.of(right, references, estimates),
        references + estimates == 0 ? 0 : (double) right / (references + estimates - right),
        substituted / all,
        missed / all,
        extra / all);
  }

  private static double distance(double a, double b, boolean octavesForgiven) {
    double off = a - b;
    return Math.abs(octavesForgiven ? off - 12 * Math.floor(off / 12 + 0.5) : off);
  }

  public double totalError() {
    return substitution + miss + falseAlarm;
  }
}
