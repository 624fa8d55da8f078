package undersong.estimate.chord;

import undersong.kernel.ChangeChain;

/**
 * Which of the 24 major and minor keys holds around each step, read off a first decoding: the
 * context in which chords are decoded again. Spelling and priors use it; the KEYS facet is derived
 * later and says more.
 */
final class KeyContext {
  /** A key changes about once in this many chords. */
  private static final double CHORDS_PER_KEY = 60;

  private final float[][] posteriors;

  private KeyContext(float[][] posteriors) {
    this.posteriors = posteriors;
  }

  static KeyContext of(StepGrid grid, int[] path) {
    int steps = path.length;
    int spans = 0;
    int[] spanOf = new int[steps];
    for (int step = 0; step < steps; step++) {
      spans += step == 0 || path[step] != path[step - 1] ? 1 : 0;
      spanOf[step] = spans - 1;
    }
    float[][] emission = new float[spans][ChordsInKeys.KEYS];
    double[] weight = new double[spans];
    int[] state = new int[spans];
    for (int step = 0; step < steps; step++) {
      weight[spanOf[step]] += grid.weight(step);
      state[spanOf[step]] = path[step];
    }
    for (int i = 0; i < spans; i++) {
      double counts = Math.min(3, Math.sqrt(weight[i] / 2));
      for (int key = 0; key < ChordsInKeys.KEYS; key++) {
        emission[i][key] = (float) (counts * ChordsInKeys.LOG[key][state[i]]);
      }
    }
    int[] oneGroup = new int[ChordsInKeys.KEYS];
    float[] enter = new float[ChordsInKeys.KEYS];
    java.util.Arrays.fill(enter, (float) -Math.log(ChordsInKeys.KEYS));
    float[][] enters = new float[spans][];
    float[] change = new float[spans];
    java.util.Arrays.fill(enters, enter);
    java.util.Arrays.fill(change, (float) -Math.log(CHORDS_PER_KEY));
    float[][] bySpan =
        new ChangeChain(oneGroup, new float[1][1]).posteriors(emission, enters, change);
    float[][] posteriors = new float[steps][];
    for (int step = 0; step < steps; step++) {
      posteriors[step] = bySpan[spanOf[step]];
    }
    return new KeyContext(posteriors);
  }

  /** Key 0 to 11 major, 12 to 23 minor that is likeliest at a step. */
  int likeliest(int step) {
    int best = 0;
    for (int key = 1; key < ChordsInKeys.KEYS; key++) {
      if (posteriors[step][key] > posteriors[step][best]) {
        best = key;
      }
    }
    return best;
  }

  /** {@code [step][state]}: log-prior of each chord, the keys mixed by their probabilities. */
  float[][] chordPriors() {
    float[][] priors = new float[posteriors.length][];
    for (int step = 0; step < priors.length; step++) {
      priors[step] =
          step > 0 && posteriors[step] == posteriors[step - 1]
              ? priors[step - 1]
              : mixed(posteriors[step]);
    }
    return priors;
  }

  private static float[] mixed(float[] keys) {
    float[] prior = new float[ChordStates.COUNT];
    for (int key = 0; key < keys.length; key++) {
      if (keys[key] > 0.01) {
        for (int s = 0; s < prior.length; s++) {
          prior[s] += keys[key] * PROBABILITIES[key][s];
        }
      }
    }
    for (int s = 0; s < prior.length; s++) {
      prior[s] = (float) Math.log(Math.max(1e-6, prior[s]));
    }
    return prior;
  }

  private static final float[][] PROBABILITIES = probabilities();

  private static float[][] probabilities() {
    float[][] probabilities = new float[ChordsInKeys.KEYS][ChordStates.COUNT];
    for (int key = 0; key < probabilities.length; key++) {
      for (int s = 0; s < ChordStates.COUNT; s++) {
        probabilities[key][s] = (float) Math.exp(ChordsInKeys.LOG[key][s]);
      }
    }
    return probabilities;
  }

  /** Before any key is known: the mean over all keys. */
  static float[][] chordPriorsWithoutKey(int steps) {
    float[] keys = new float[ChordsInKeys.KEYS];
    java.util.Arrays.fill(keys, 1f / keys.length);
    float[][] priors = new float[steps][];
    java.util.Arrays.fill(priors, mixed(keys));
    return priors;
  }
}
