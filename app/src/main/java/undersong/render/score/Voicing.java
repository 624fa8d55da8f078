package undersong.render.score;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import undersong.theory.ChordSymbol.Chord;

/** Lays chords out in close position, each as near to the one before as it goes. */
final class Voicing {
  private Voicing() {}

  /**
   * The close position of a chord whose notes move least from the ones before.
   *
   * @param before pitches of the chord before, rising; empty at the beginning
   * @param lowest and {@code highest}: MIDI pitches to stay between; a fifth of overhang is allowed
   */
  static int[] nearest(Chord chord, int[] before, int lowest, int highest) {
    List<Integer> classes = new ArrayList<>();
    chord.tones().forEach(tone -> classes.add(tone.pitchClass()));
    int[] best = new int[0];
    double least = Double.POSITIVE_INFINITY;
    for (int start = lowest - 5; start <= highest; start++) {
      if (!classes.contains(Math.floorMod(start, 12))) {
        continue;
      }
      int[] candidate = closeFrom(start, classes);
      double cost = cost(candidate, before, lowest, highest);
      if (cost < least) {
        least = cost;
        best = candidate;
      }
    }
    return best;
  }

  private static int[] closeFrom(int start, List<Integer> classes) {
    return classes.stream()
        .mapToInt(pitchClass -> start + Math.floorMod(pitchClass - start, 12))
        .sorted()
        .toArray();
  }

  private static double cost(int[] candidate, int[] before, int lowest, int highest) {
    double middle = (lowest + highest) / 2.0;
    double mean = Arrays.stream(candidate).average().orElse(middle);
    double cost = 0.12 * Math.abs(mean - middle);
    cost += 4.0 * Math.max(0, lowest - candidate[0]);
    cost += 4.0 * Math.max(0, candidate[candidate.length - 1] - highest);
    for (int pitch : candidate) {
      int move = 12;
      for (int earlier : before) {
        move = Math.min(move, Math.abs(pitch - earlier));
      }
      cost += before.length == 0 ? 0 : move;
    }
    return cost;
  }

  /** The pitch of a class within a range that lies nearest to another pitch. */
  static int nearestPitch(int pitchClass, int to, int lowest, int highest) {
    int best = -1;
    for (int pitch = lowest; pitch <= highest; pitch++) {
      boolean nearer = best < 0 || Math.abs(pitch - to) < Math.abs(best - to);
      if (Math.floorMod(pitch, 12) == pitchClass && nearer) {
        best = pitch;
      }
    }
    if (best < 0) {
      throw new IllegalArgumentException(
          "No pitch of class %d lies between %d and %d; the part's range is under an octave."
              .formatted(pitchClass, lowest, highest));
    }
    return best;
  }
}
