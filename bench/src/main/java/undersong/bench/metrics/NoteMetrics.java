package undersong.bench.metrics;

import java.util.List;

/**
 * Agreement of notes: onset within 50 ms (rounded to 0.1 ms), pitch within 50 cents, and where
 * offsets count, offset within 50 ms or a fifth of the reference's length. All bounds included.
 *
 * <p>Source: M. Bay, A. Ehmann, J. Downie, "Evaluation of Multiple-F0 Estimation and Tracking
 * Systems", ISMIR 2009; E. Molina and others (COnPOff, COnP, COn), ISMIR 2014.
 */
public final class NoteMetrics {
  private static final double ONSET_SECONDS = 0.05;
  private static final double PITCH_SEMITONES = 0.5;

  private NoteMetrics() {}

  /** What has to agree for two notes to match. */
  public enum Demand {
    ONSET,
    ONSET_PITCH,
    ONSET_PITCH_OFFSET
  }

  public static PrecisionRecall score(
      List<SungNote> reference, List<SungNote> estimated, Demand demand) {
    return PrecisionRecall.of(
        Matching.count(match(reference, estimated, demand)), reference.size(), estimated.size());
  }

  /** Mean overlap (intersection over union) of matched notes; NaN where none match. */
  public static double overlapRatio(
      List<SungNote> reference, List<SungNote> estimated, Demand demand) {
    int[] matched = match(reference, estimated, demand);
    double sum = 0;
    int pairs = 0;
    for (int r = 0; r < matched.length; r++) {
      if (matched[r] >= 0) {
        SungNote truth = reference.get(r);
        SungNote guess = estimated.get(matched[r]);
        double common =
            Math.min(truth.endSeconds(), guess.endSeconds())
                - Math.max(truth.startSeconds(), guess.startSeconds());
        double all =
            Math.max(truth.endSeconds(), guess.endSeconds())
                - Math.min(truth.startSeconds(), guess.startSeconds());
        sum += common / all;
        pairs++;
      }
    }
    return pairs == 0 ? Double.NaN : sum / pairs;
  }

  /** The estimate matched to each note of the reference, -1 where none is. */
  public static int[] match(List<SungNote> reference, List<SungNote> estimated, Demand demand) {
    return Matching.maximum(
        reference.size(),
        estimated.size(),
        (r, e) -> joins(reference.get(r), estimated.get(e), demand));
  }

  private static boolean joins(SungNote truth, SungNote guess, Demand demand) {
    if (rounded(truth.startSeconds() - guess.startSeconds()) > ONSET_SECONDS) {
      return false;
    }
    if (demand == Demand.ONSET) {
      return true;
    }
    if (rounded(truth.midiPitch() - guess.midiPitch()) > PITCH_SEMITONES) {
      return false;
    }
    double offsetSeconds = Math.max(ONSET_SECONDS, 0.2 * truth.lengthSeconds());
    return demand == Demand.ONSET_PITCH
        || rounded(truth.endSeconds() - guess.endSeconds()) <= offsetSeconds;
  }

  private static double rounded(double difference) {
    return Math.rint(Math.abs(difference) * 10_000) / 10_000;
  }
}
