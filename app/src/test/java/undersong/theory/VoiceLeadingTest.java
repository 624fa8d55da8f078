package undersong.theory;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import undersong.theory.ChordSymbol.Chord;

class VoiceLeadingTest {
  /** Common practice, no source. */
  @ParameterizedTest
  @CsvSource({
    "C, C, 0",
    "C, Cm, 1",
    "C, Em, 1",
    "C, Am, 2",
    "Am, Adim, 1",
    "C, C7, 2",
    "C, Caug, 1",
    "C, F, 3",
    "C, F#, 6",
    "Cdim7, B7, 1",
    "G7, C, 4"
  })
  void countsTheSemitonesThatVoicesMove(String one, String other, int semitones) {
    Chord from = (Chord) LeadSheet.parse(one);
    Chord to = (Chord) LeadSheet.parse(other);
    assertThat(VoiceLeading.distance(from, to)).isEqualTo(semitones);
    assertThat(VoiceLeading.distance(to, from)).isEqualTo(semitones);
  }

  @Test
  void isTheSmallestOfAllWaysToLinkTheNotes() {
    Random random = new Random(5);
    for (int i = 0; i < 300; i++) {
      int one = pick(random, 1 + random.nextInt(4));
      int other = pick(random, 1 + random.nextInt(4));
      assertThat(VoiceLeading.distance(one, other)).isEqualTo(smallestOfAll(one, other));
    }
    assertThat(VoiceLeading.distance(0, 5)).isZero();
  }

  private static int pick(Random random, int notes) {
    int bits = 0;
    while (Integer.bitCount(bits) < notes) {
      bits |= 1 << random.nextInt(12);
    }
    return bits;
  }

  /** Tries every set of pairs in which each note of either chord has a partner. */
  private static int smallestOfAll(int oneBits, int otherBits) {
    Integer[] one = TheoryTables.pitchClasses(oneBits).toArray(Integer[]::new);
    Integer[] other = TheoryTables.pitchClasses(otherBits).toArray(Integer[]::new);
    int pairs = one.length * other.length;
    int smallest = Integer.MAX_VALUE;
    for (int chosen = 1; chosen < 1 << pairs; chosen++) {
      int moved = 0;
      Set<Integer> left = new java.util.HashSet<>();
      Set<Integer> reached = new java.util.HashSet<>();
      for (int pair = 0; pair < pairs; pair++) {
        if ((chosen & 1 << pair) != 0) {
          int a = one[pair / other.length];
          int b = other[pair % other.length];
          left.add(a);
          reached.add(b);
          moved += Math.min(Math.floorMod(a - b, 12), Math.floorMod(b - a, 12));
        }
      }
      if (left.size() == one.length && reached.size() == other.length) {
        smallest = Math.min(smallest, moved);
      }
    }
    return smallest;
  }
}
