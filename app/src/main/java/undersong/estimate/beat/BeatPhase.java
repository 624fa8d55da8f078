package undersong.estimate.beat;

/**
 * Which half of the beat is the beat, decided for whole stretches at once: by all that was heard on
 * the beats of a chain against all that was heard half way between them (Viterbi over two phases).
 * A band that plays on keeps its phase however long it leans off the beat; where everybody rests
 * for a beat it may come in anew.
 */
final class BeatPhase {
  /** Price of a change of phase while the band plays on, a full-strength beat being worth 1. */
  private static final double STEADY = 80;

  private static final double RESTED = 12;

  /** A beat with less than this of a usual beat on it and after it is a rest. */
  private static final double REST_SHARE = 0.25;

  private BeatPhase() {}

  /**
   * @param gain worth of a beat on each frame
   * @param chain frames of beats, rising, on either half of the beat
   * @return frames of beats on the likelier half
   */
  static double[] settle(double[] gain, double[] chain) {
    int n = chain.length - 1;
    if (n < 3) {
      return chain;
    }
    double[] on = new double[n];
    double[] off = new double[n];
    double usual = 0;
    for (int i = 0; i < n; i++) {
      on[i] = near(gain, chain[i]);
      off[i] = near(gain, (chain[i] + chain[i + 1]) / 2);
      usual += (on[i] + off[i]) / n;
    }
    double best = on[0];
    double other = off[0];
    boolean[] onMoved = new boolean[n];
    boolean[] offMoved = new boolean[n];
    for (int i = 1; i < n; i++) {
      boolean rested = on[i - 1] + off[i - 1] < REST_SHARE * usual;
      double price = rested ? RESTED : STEADY;
      onMoved[i] = other - price > best;
      offMoved[i] = best - price > other;
      double next = Math.max(best, other - price) + on[i];
      other = Math.max(other, best - price) + off[i];
      best = next;
    }
    boolean[] isOff = new boolean[n];
    boolean here = other > best;
    for (int i = n - 1; i >= 0; i--) {
      isOff[i] = here;
      here ^= here ? offMoved[i] : onMoved[i];
    }
    return beats(chain, isOff);
  }

  /** Where the phase changes to the earlier half, the beat that would come too soon is left out. */
  private static double[] beats(double[] chain, boolean[] isOff) {
    double[] beats = new double[chain.length];
    int count = 0;
    for (int i = 0; i < isOff.length; i++) {
      boolean tooSoon = i > 0 && isOff[i - 1] && !isOff[i];
      if (!tooSoon) {
        beats[count++] = isOff[i] ? (chain[i] + chain[i + 1]) / 2 : chain[i];
      }
    }
    if (!isOff[isOff.length - 1]) {
      beats[count++] = chain[chain.length - 1];
    }
    return java.util.Arrays.copyOf(beats, count);
  }

  private static double near(double[] gain, double at) {
    int frame = (int) Math.round(at);
    double most = 0;
    for (int i = Math.max(0, frame - 1); i <= Math.min(gain.length - 1, frame + 1); i++) {
      most = Math.max(most, gain[i]);
    }
    return most;
  }
}
