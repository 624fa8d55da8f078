package undersong.theory;

import java.util.ArrayList;
import java.util.List;

/**
 * How far voices must move from one chord to the next when octaves are free.
 *
 * <p>Source: D. Tymoczko, "The Geometry of Musical Chords", Science 313, 2006: among the smallest
 * voice leadings there is always one without crossings, found by dynamic programming (from memory).
 */
public final class VoiceLeading {
  private VoiceLeading() {}

  /**
   * Smallest sum of semitones moved such that every note of either chord is left or reached; notes
   * may split and join where the chords differ in size.
   *
   * <p><b>In:</b> pitch classes as bits, bit 0 = C. <br>
   * <b>Silence:</b> 0 where either chord is empty. <br>
   * <b>Cost:</b> N * M * M for chords of N and M notes.
   */
  public static int distance(int oneBits, int otherBits) {
    List<Integer> one = pitchClasses(oneBits);
    List<Integer> other = pitchClasses(otherBits);
    if (one.isEmpty() || other.isEmpty()) {
      return 0;
    }
    int smallest = Integer.MAX_VALUE;
    for (int start = 0; start < other.size(); start++) {
      smallest = Math.min(smallest, fromFirstPair(one, other, start));
    }
    return smallest;
  }

  public static int distance(ChordSymbol.Chord one, ChordSymbol.Chord other) {
    return distance(one.pitchClassBits(), other.pitchClassBits());
  }

  /**
   * Both chords are walked round the circle at once, from the first note of one and the start note
   * of the other until both are back there: each pair passed is one voice.
   */
  private static int fromFirstPair(List<Integer> one, List<Integer> other, int start) {
    int[] before = new int[other.size() + 1];
    int[] here = new int[other.size() + 1];
    for (int i = 0; i <= one.size(); i++) {
      for (int k = 0; k <= other.size(); k++) {
        int moved = semitones(one.get(i % one.size()), other.get((start + k) % other.size()));
        if (i == 0 && k == 0) {
          here[k] = moved;
          continue;
        }
        int cheapest = i > 0 ? before[k] : Integer.MAX_VALUE;
        if (k > 0) {
          cheapest = Math.min(cheapest, here[k - 1]);
        }
        if (i > 0 && k > 0) {
          cheapest = Math.min(cheapest, before[k - 1]);
        }
        boolean backAtStart = i == one.size() && k == other.size();
        here[k] = cheapest + (backAtStart ? 0 : moved);
      }
      int[] swap = before;
      before = here;
      here = swap;
    }
    return before[other.size()];
  }

  private static int semitones(int one, int other) {
    int up = Math.floorMod(other - one, 12);
    return Math.min(up, 12 - up);
  }

  private static List<Integer> pitchClasses(int bits) {
    List<Integer> pitchClasses = new ArrayList<>();
    for (int pitchClass = 0; pitchClass < 12; pitchClass++) {
      if ((bits & 1 << pitchClass) != 0) {
        pitchClasses.add(pitchClass);
      }
    }
    return pitchClasses;
  }
}
