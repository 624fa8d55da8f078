package undersong.estimate.chord;

import undersong.kernel.ChangeChain;
import undersong.reading.Meter;
import undersong.theory.ChordQuality;

/**
 * Decodes chords from evidence: chords last and change where changes are likely, chords and root
 * motions common in the key are preferred, and the bass is heard as a member of the chord.
 *
 * <p>Source: the explicit-context chord model of M. Mauch and S. Dixon, "Simultaneous Estimation of
 * Chords and Musical Context from Audio", IEEE TASLP 18(6), 2010. Departs from it: decoded over
 * tatums, with the place in the bar as a prior on changes and the key mixed in from a first pass.
 */
final class ChordDecoder {
  /** One beat of pitch-class log-odds counts this much (frames of one note are not independent). */
  private static final double PITCH_CLASS_WEIGHT = 0.7;

  private static final double BASS_WEIGHT = 1.2;
  private static final double CONTEXT_WEIGHT = 0.8;
  private static final float SILENCE_IS_NO_CHORD = 30;

  /** A silence shorter than this, with sound on both sides, is a rest within a chord. */
  private static final double LONGEST_REST_BEATS = 3;

  private static final float NO_CHORD_BIAS = 1.0f;
  private static final float CLIP = 3.5f;

  /** Penalty for leaving a pinned chord, per step: far beyond what evidence weighs, yet finite. */
  private static final float PIN = 200;

  private ChordDecoder() {}

  /**
   * @param inKeys whether chords are expected by the key around them
   */
  static Decoding decode(
      ChordEvidence evidence, StepGrid grid, Meter meter, int[] pins, boolean inKeys) {
    float[][] emission = emissions(evidence, grid);
    for (int step = 0; step < pins.length; step++) {
      for (int s = 0; pins[step] >= 0 && s < ChordStates.COUNT; s++) {
        emission[step][s] -= s == pins[step] ? 0 : PIN;
      }
    }
    ChangeChain chain = new ChangeChain(ChordStates.GROUPS, ChordsInKeys.LOG_MOTION);
    float[] start = ChangePrior.start(grid, meter);
    float[][] anyKey = KeyContext.chordPriorsWithoutKey(grid.steps());
    int[] first = chain.path(emission, anyKey, start);
    KeyContext keys = KeyContext.of(grid, first);
    float[] change = ChangePrior.learned(grid, meter, start, first);
    float[][] context = weighted(inKeys ? keys.chordPriors() : anyKey);
    int[] path = chain.path(emission, context, change);
    return new Decoding(
        path, chain.posteriors(emission, context, change), KeyContext.of(grid, path));
  }

  private static float[][] weighted(float[][] priors) {
    float[][] out = new float[priors.length][];
    for (int step = 0; step < priors.length; step++) {
      if (step > 0 && priors[step] == priors[step - 1]) {
        out[step] = out[step - 1];
      } else {
        out[step] = new float[priors[step].length];
        for (int s = 0; s < out[step].length; s++) {
          out[step][s] = (float) (CONTEXT_WEIGHT * priors[step][s]);
        }
      }
    }
    return out;
  }

  static float[][] emissions(ChordEvidence evidence, StepGrid grid) {
    float[][] emission = new float[evidence.steps()][ChordStates.COUNT];
    float[] odds = new float[12];
    for (int step = 0; step < emission.length; step++) {
      float[] out = emission[step];
      double weight = grid.weight(step);
      if (!evidence.sounds(step)) {
        boolean rest = silentBeats(evidence, grid, step) < LONGEST_REST_BEATS;
        out[ChordStates.NO_CHORD] = rest ? 0 : SILENCE_IS_NO_CHORD;
        continue;
      }
      for (int c = 0; c < 12; c++) {
        odds[c] = Math.max(-CLIP, Math.min(CLIP, evidence.pitchClasses(step)[c]));
      }
      for (int state = 0; state < ChordStates.NO_CHORD; state++) {
        out[state] =
            (float)
                (weight
                    * (PITCH_CLASS_WEIGHT * members(odds, state)
                        + BASS_WEIGHT * bass(evidence.bass(step), state)));
      }
      out[ChordStates.NO_CHORD] = (float) (weight * NO_CHORD_BIAS);
      if (evidence.namesChords()) {
        for (int state = 0; state < ChordStates.COUNT; state++) {
          out[state] += (float) (weight * evidence.states(step)[state]);
        }
      }
    }
    return emission;
  }

  /** Length of the silence around a step; endless where it reaches either end of the song. */
  private static double silentBeats(ChordEvidence evidence, StepGrid grid, int step) {
    double beats = 0;
    int from = step;
    while (from >= 0 && !evidence.sounds(from) && beats < LONGEST_REST_BEATS) {
      beats += grid.weight(from--);
    }
    int to = step + 1;
    while (to < evidence.steps() && !evidence.sounds(to) && beats < LONGEST_REST_BEATS) {
      beats += grid.weight(to++);
    }
    return from < 0 || to == evidence.steps() ? Double.POSITIVE_INFINITY : beats;
  }

  private static float members(float[] odds, int state) {
    int root = ChordStates.root(state);
    float sum = 0;
    for (int semitones : MEMBERS[state % ChordStates.QUALITIES.size()]) {
      sum += odds[(root + semitones) % 12];
    }
    return sum;
  }

  private static double bass(float[] shares, int state) {
    int root = ChordStates.root(state);
    int quality = state % ChordStates.QUALITIES.size();
    double heard = 0;
    double likelihood = 0;
    for (int c = 0; c < 12; c++) {
      if (shares[c] > 0) {
        heard += shares[c];
        likelihood += shares[c] * BASS_ROLES[quality][c < root ? c - root + 12 : c - root];
      }
    }
    double unheard = Math.max(0, 1 - heard);
    return Math.log(likelihood + unheard * BASS_UNHEARD) - Math.log(BASS_UNHEARD);
  }

  private static final double BASS_UNHEARD = 1.0 / 12;

  private static final int[][] MEMBERS = members();

  private static int[][] members() {
    int[][] members = new int[ChordStates.QUALITIES.size()][];
    for (int q = 0; q < members.length; q++) {
      members[q] = ChordStates.QUALITIES.get(q).semitones();
    }
    return members;
  }

  /** {@code [quality][semitones above the root]}: how likely the bass plays there. */
  private static final double[][] BASS_ROLES = bassRoles();

  // Basses under chords in the charts marked for learning, widened for bass lines that walk.
  private static double[][] bassRoles() {
    double[][] roles = new double[ChordStates.QUALITIES.size()][12];
    for (int q = 0; q < roles.length; q++) {
      ChordQuality quality = ChordStates.QUALITIES.get(q);
      for (int semitones = 0; semitones < 12; semitones++) {
        boolean member = quality.contains(semitones);
        boolean fifth = semitones >= 6 && semitones <= 8;
        roles[q][semitones] = semitones == 0 ? 0.78 : member ? fifth ? 0.09 : 0.04 : 0.008;
      }
    }
    return roles;
  }
}
