package undersong.trend;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * A song to a listener who knows the other songs of the shelf.
 *
 * @param byCharts mean surprise of its chords to someone who knows open charts, in bits; empty
 *     where none sounds
 * @param byShelf the same to someone who knows the shelf's other songs, too; empty where there are
 *     too few
 * @param others how many songs these are
 * @param energies how far its sections rise, against those of other songs; none where too few songs
 *     have such a section
 */
public record Experience(
    Optional<Double> byCharts, Optional<Double> byShelf, int others, List<Energy> energies) {
  public Experience {
    energies = List.copyOf(energies);
  }

  /**
   * The highest section of a kind against that of other songs.
   *
   * @param section what it is called
   * @param height above the middle of its own song: 3 LU, 3 dB of width, 4 semitones and half as
   *     dense again count 1 each
   * @param lower songs whose section of this kind rises less
   */
  public record Energy(String section, double height, Share lower) {}

  /** Whether there are enough other songs. */
  public static boolean isTellable(int others) {
    return others >= Trend.LEAST_SONGS;
  }

  /** In a sentence or two; "" where no chord sounds and no section can be compared. */
  public String said() {
    return (surprise() + " " + energy()).strip();
  }

  private String surprise() {
    if (byCharts.isEmpty()) {
      return "";
    }
    String charts =
        String.format(
            Locale.ROOT, "Against open charts its chords surprise by %.1f bits", byCharts.get());
    return byShelf
        .map(
            bits ->
                charts
                    + String.format(
                        Locale.ROOT,
                        ", by %.1f to someone who knows %d songs of your shelf too.",
                        bits,
                        others))
        .orElse(
            charts
                + "; what your shelf has taught cannot be said, for that %d other songs are needed."
                    .formatted(Trend.LEAST_SONGS));
  }

  private String energy() {
    if (energies.isEmpty()) {
      return "How its sections rise against those of other songs cannot be said: too few of them"
          + " have such sections.";
    }
    return "Above the middle of its song the "
        + energies.stream()
            .map(
                one ->
                    "%s rises further than in %d of %d"
                        .formatted(one.section(), one.lower().songs(), one.lower().of()))
            .collect(Collectors.joining(", the "))
        + ".";
  }
}
