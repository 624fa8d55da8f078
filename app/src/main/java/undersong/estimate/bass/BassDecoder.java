package undersong.estimate.bass;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import undersong.estimate.LearnedCertainty;
import undersong.kernel.ChangeChain;
import undersong.reading.NoteEvent;
import undersong.time.Span;

/**
 * Decodes bass notes: a pitch lasts and changes where something begins; a change is moved to the
 * onset nearby, and a held pitch is cut where it is struck again.
 */
final class BassDecoder {
  private static final double CHANGE = 0.04;
  private static final double CHANGE_AT_ONSET = 0.5;
  private static final float FRAME_WEIGHT = 0.5f;

  /** Rise of the partials (feature units) that counts as a full onset. */
  private static final double FULL_RISE = 0.6;

  private static final double SEARCH_SECONDS = 0.2;
  private static final double SHORTEST_SECONDS = 0.09;
  private static final float PIN = 100;

  private static final LearnedCertainty SURE = LearnedCertainty.of("bass", List.of("posterior"));

  /** In a pin no pitch is wanted by this number. */
  static final int FREE = -1;

  private BassDecoder() {}

  /**
   * @param pins wanted state of each frame, {@link #FREE} where nothing is said
   */
  static List<NoteEvent> decode(BassEvidence evidence, int[] pins, double durationSeconds) {
    float[][] emission = evidence.copyOfStates();
    int frames = emission.length;
    if (frames == 0) {
      return List.of();
    }
    int states = BassEvidence.PITCHES + 1;
    for (int t = 0; t < frames; t++) {
      for (int s = 0; s < states; s++) {
        emission[t][s] =
            FRAME_WEIGHT * emission[t][s] - (pins[t] != FREE && pins[t] != s ? PIN : 0);
      }
    }
    float[] enter = new float[states];
    Arrays.fill(enter, (float) -Math.log(states));
    float[][] enters = new float[frames][];
    Arrays.fill(enters, enter);
    float[] change = new float[frames];
    for (int t = 0; t < frames; t++) {
      change[t] =
          (float) Math.log(CHANGE + (CHANGE_AT_ONSET - CHANGE) * strongestOnset(evidence, t));
    }
    ChangeChain chain = new ChangeChain(new int[states], new float[1][1]);
    int[] path = chain.path(emission, enters, change);
    float[][] posteriors = chain.posteriors(emission, enters, change);
    return notes(evidence, path, posteriors, durationSeconds);
  }

  private static double strongestOnset(BassEvidence evidence, int frame) {
    double strongest = 0;
    for (int p = 0; p < BassEvidence.PITCHES; p++) {
      strongest = Math.max(strongest, evidence.onset(frame, p));
    }
    return Math.min(1, strongest / FULL_RISE);
  }

  private static List<NoteEvent> notes(
      BassEvidence evidence, int[] path, float[][] posteriors, double durationSeconds) {
    List<NoteEvent> notes = new ArrayList<>();
    int from = 0;
    double start = 0;
    for (int t = 1; t <= path.length; t++) {
      if (t < path.length && path[t] == path[from]) {
        continue;
      }
      double end =
          t == path.length
              ? durationSeconds
              : onsetNear(evidence, t, path[t] == BassEvidence.NO_BASS ? -1 : path[t]);
      end = Math.min(durationSeconds, Math.max(end, start));
      if (path[from] != BassEvidence.NO_BASS && end - start >= SHORTEST_SECONDS) {
        double sure = SURE.of(LearnedCertainty.logOdds(mean(posteriors, path[from], from, t)));
        addStruck(evidence, path[from], start, end, sure, notes);
      }
      start = end;
      from = t;
    }
    return notes;
  }

  private static double mean(float[][] posteriors, int state, int from, int to) {
    double sum = 0;
    for (int t = from; t < to; t++) {
      sum += posteriors[t][state];
    }
    return Math.min(1, sum / (to - from));
  }

  /** The time near a frame at which a pitch begins most strongly; the frame's own without one. */
  private static double onsetNear(BassEvidence evidence, int frame, int pitch) {
    int reach = (int) Math.round(SEARCH_SECONDS * evidence.clock().framesPerSecond());
    double best = 0.15;
    double at = frame;
    for (int t = Math.max(1, frame - reach);
        pitch >= 0 && t <= Math.min(evidence.frames() - 2, frame + reach);
        t++) {
      double value = evidence.onset(t, pitch) * (1 - 0.5 * Math.abs(t - frame) / (reach + 1.0));
      if (value > best) {
        best = value;
        at = t + shift(evidence, t, pitch);
      }
    }
    return evidence.clock().secondsAt(at);
  }

  /** Top of the parabola through three frames. */
  private static double shift(BassEvidence evidence, int t, int pitch) {
    double left = evidence.onset(t - 1, pitch);
    double right = evidence.onset(t + 1, pitch);
    double bend = left - 2 * evidence.onset(t, pitch) + right;
    return bend >= 0 ? 0 : Math.max(-0.5, Math.min(0.5, 0.5 * (left - right) / bend));
  }

  /** One held pitch, cut where it is struck again. */
  private static void addStruck(
      BassEvidence evidence,
      int pitch,
      double start,
      double end,
      double probability,
      List<NoteEvent> notes) {
    double from = start;
    int first = evidence.clock().frameAt(start + SHORTEST_SECONDS);
    int last = Math.min(evidence.frames() - 2, evidence.clock().frameAt(end - SHORTEST_SECONDS));
    for (int t = Math.max(1, first); t <= last; t++) {
      double here = evidence.onset(t, pitch);
      boolean peak = here >= evidence.onset(t - 1, pitch) && here > evidence.onset(t + 1, pitch);
      double at = evidence.clock().secondsAt(t + (peak ? shift(evidence, t, pitch) : 0));
      if (peak && here > evidence.restrikeOnset() && at - from >= SHORTEST_SECONDS) {
        notes.add(
            new NoteEvent(new Span(from, at), BassEvidence.LOWEST_PITCH + pitch, probability));
        from = at;
      }
    }
    if (end > from) {
      notes.add(new NoteEvent(new Span(from, end), BassEvidence.LOWEST_PITCH + pitch, probability));
    }
  }
}
