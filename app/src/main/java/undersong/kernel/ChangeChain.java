package undersong.kernel;

/**
 * A hidden Markov chain whose states last: at every step it either stays where it is or changes,
 * with a probability that depends on the step. Where a change leads depends on the groups of the
 * old and the new state and on the new state itself, so that one step costs O(states + groups^2)
 * instead of O(states^2). All arrays hold natural logarithms.
 *
 * <p>Source: L. R. Rabiner, "A tutorial on hidden Markov models", Proc. IEEE 77(2), 1989, for both
 * recursions. Departs from it: transition scores need not be normalized.
 */
public final class ChangeChain {
  private final int[] group;
  private final float[][] motion;

  /**
   * @param group read, group of each state
   * @param motion read, {@code [old group][new group]}
   */
  public ChangeChain(int[] group, float[][] motion) {
    this.group = group.clone();
    this.motion = motion.clone();
  }

  /**
   * The likeliest states.
   *
   * @param emission read, {@code [step][state]}
   * @param enter read, {@code [step][state]}: score of a change into the state
   * @param change read, one per step: log-probability of a change just before it
   * @return state of each step
   */
  public int[] path(float[][] emission, float[][] enter, float[] change) {
    int steps = emission.length;
    if (steps == 0) {
      return new int[0];
    }
    int states = group.length;
    int[][] cameFrom = new int[steps][states];
    float[] score = new float[states];
    for (int s = 0; s < states; s++) {
      score[s] = emission[0][s] + enter[0][s];
    }
    int[] bestOfGroup = new int[motion.length];
    int[] before = new int[motion.length];
    float[] arrival = new float[motion.length];
    for (int t = 1; t < steps; t++) {
      bestOfGroups(score, bestOfGroup);
      for (int g = 0; g < motion.length; g++) {
        arrival[g] = Float.NEGATIVE_INFINITY;
        for (int old = 0; old < motion.length; old++) {
          float value = score[bestOfGroup[old]] + motion[old][g];
          if (value > arrival[g]) {
            arrival[g] = value;
            before[g] = bestOfGroup[old];
          }
        }
      }
      float stay = stay(change[t]);
      for (int s = 0; s < states; s++) {
        float changed = change[t] + arrival[group[s]] + enter[t][s];
        float stayed = stay + score[s];
        cameFrom[t][s] = changed > stayed ? before[group[s]] : s;
        score[s] = Math.max(changed, stayed) + emission[t][s];
      }
    }
    int[] path = new int[steps];
    for (int s = 1; s < states; s++) {
      if (score[s] > score[path[steps - 1]]) {
        path[steps - 1] = s;
      }
    }
    for (int t = steps - 1; t > 0; t--) {
      path[t - 1] = cameFrom[t][path[t]];
    }
    return path;
  }

  private void bestOfGroups(float[] score, int[] bestOfGroup) {
    java.util.Arrays.fill(bestOfGroup, -1);
    for (int s = 0; s < score.length; s++) {
      int g = group[s];
      if (bestOfGroup[g] < 0 || score[s] > score[bestOfGroup[g]]) {
        bestOfGroup[g] = s;
      }
    }
  }

  /**
   * Probability of each state at each step given all steps; arguments as for {@link #path}.
   *
   * @return {@code [step][state]}, each step summing to 1
   */
  public float[][] posteriors(float[][] emission, float[][] enter, float[] change) {
    int steps = emission.length;
    int states = group.length;
    float[][] likelihood = new float[steps][];
    float[][] entry = new float[steps][];
    for (int t = 0; t < steps; t++) {
      likelihood[t] = exponentials(emission[t], largest(emission[t]));
      entry[t] = t > 0 && enter[t] == enter[t - 1] ? entry[t - 1] : exponentials(enter[t], 0);
    }
    float[][] moves = new float[motion.length][];
    for (int g = 0; g < moves.length; g++) {
      moves[g] = exponentials(motion[g], 0);
    }
    float[][] forward = forward(likelihood, entry, moves, change);
    float[] after = new float[states];
    java.util.Arrays.fill(after, 1f / states);
    float[] ahead = new float[states];
    for (int t = steps - 1; t >= 0; t--) {
      if (t < steps - 1) {
        backward(after, likelihood[t + 1], entry[t + 1], moves, change[t + 1], ahead);
      }
      for (int s = 0; s < states; s++) {
        forward[t][s] *= after[s];
      }
      normalize(forward[t]);
    }
    return forward;
  }

  private float[][] forward(
      float[][] likelihood, float[][] entry, float[][] moves, float[] change) {
    int states = group.length;
    float[][] forward = new float[likelihood.length][states];
    float[] leaving = new float[moves.length];
    float[] arriving = new float[moves.length];
    for (int t = 0; t < forward.length; t++) {
      if (t == 0) {
        for (int s = 0; s < states; s++) {
          forward[0][s] = likelihood[0][s] * entry[0][s];
        }
      } else {
        java.util.Arrays.fill(leaving, 0);
        for (int s = 0; s < states; s++) {
          leaving[group[s]] += forward[t - 1][s];
        }
        float changing = (float) Math.exp(change[t]);
        for (int g = 0; g < moves.length; g++) {
          arriving[g] = 0;
          for (int old = 0; old < moves.length; old++) {
            arriving[g] += leaving[old] * moves[old][g];
          }
          arriving[g] *= changing;
        }
        float staying = (float) Math.exp(stay(change[t]));
        for (int s = 0; s < states; s++) {
          forward[t][s] =
              likelihood[t][s] * (staying * forward[t - 1][s] + arriving[group[s]] * entry[t][s]);
        }
      }
      normalize(forward[t]);
    }
    return forward;
  }

  /** Takes {@code after} one step back; {@code ahead} is scratch. */
  private void backward(
      float[] after,
      float[] likelihood,
      float[] entry,
      float[][] moves,
      float logChange,
      float[] ahead) {
    float[] arriving = new float[moves.length];
    for (int s = 0; s < after.length; s++) {
      ahead[s] = likelihood[s] * after[s];
      arriving[group[s]] += ahead[s] * entry[s];
    }
    float changing = (float) Math.exp(logChange);
    float staying = (float) Math.exp(stay(logChange));
    float[] leaving = new float[moves.length];
    for (int old = 0; old < moves.length; old++) {
      for (int g = 0; g < moves.length; g++) {
        leaving[old] += moves[old][g] * arriving[g];
      }
      leaving[old] *= changing;
    }
    for (int s = 0; s < after.length; s++) {
      after[s] = staying * ahead[s] + leaving[group[s]];
    }
    normalize(after);
  }

  private static float stay(float change) {
    return (float) Math.log1p(-Math.min(0.999999, Math.exp(change)));
  }

  private static float largest(float[] values) {
    float largest = Float.NEGATIVE_INFINITY;
    for (float value : values) {
      largest = Math.max(largest, value);
    }
    return largest;
  }

  private static float[] exponentials(float[] logs, float subtract) {
    float[] out = new float[logs.length];
    for (int i = 0; i < logs.length; i++) {
      out[i] = (float) Math.exp(Math.max(-60, logs[i] - subtract));
    }
    return out;
  }

  private static void normalize(float[] values) {
    float sum = 0;
    for (float value : values) {
      sum += value;
    }
    if (!(sum > 0)) {
      java.util.Arrays.fill(values, 1f / values.length);
      return;
    }
    for (int i = 0; i < values.length; i++) {
      values[i] /= sum;
    }
  }
}
