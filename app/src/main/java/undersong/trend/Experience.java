package undersong.trend;

import java.util.List;
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
    return byShelf
        .map(bits -> TrendWords.say("experience.shelf", byCharts.get(), bits, others))
        .orElseGet(() -> TrendWords.say("experience.charts", byCharts.get(), Trend.LEAST_SONGS));
  }

  private String energy() {
    return energies.isEmpty()
        ? TrendWords.say("experience.no-sections")
        : TrendWords.say(
            "experience.sections",
            energies.stream()
                .map(
                    one ->
                        TrendWords.say(
                            "experience.section",
                            one.section(),
                            one.lower().songs(),
                            one.lower().of()))
                .collect(Collectors.joining(", ")));
  }
}
