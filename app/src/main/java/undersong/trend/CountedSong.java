package undersong.trend;

import java.util.Optional;
import java.util.Set;

/**
 * What is counted of one song.
 *
 * @param origin "recording", "chart" or "memory"
 * @param techniques ids of what is found in it
 * @param numerals in order, a blank around each, a bar where the key changes: {@code " I IV | ii V
 *     "}; {@code " "} where no chord sounds
 * @param chordBits mean bits of surprise a chord; empty where none sounds
 */
public record CountedSong(
    long id,
    String title,
    Optional<String> artist,
    Optional<Integer> year,
    String origin,
    Set<String> techniques,
    String numerals,
    Optional<Double> chordBits) {
  public CountedSong {
    techniques = Set.copyOf(techniques);
  }
}
