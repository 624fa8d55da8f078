package undersong.trend;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * What sets one song apart from others.
 *
 * @param rare its techniques that few of the others have, the rarest first, each with the others'
 *     share; empty where there are too few others
 * @param bits mean surprise of its chords; empty where none sounds
 * @param lessSurprising share of the others whose chords surprise less; empty where it cannot be
 *     said
 * @param said what may be said, in a sentence or two
 */
public record Unusual(
    List<Rare> rare, Optional<Double> bits, Optional<Share> lessSurprising, String said) {
  /** Rare: even the upper end of the interval of the others' share stays below this. */
  private static final double RARE_BELOW = 0.25;

  public Unusual {
    rare = List.copyOf(rare);
  }

  /** A technique few others have. */
  public record Rare(String technique, Share others) {}

  /** A song against the others; itself among them does not count. */
  public static Unusual of(CountedSong song, Collection<CountedSong> shelf) {
    List<CountedSong> others = shelf.stream().filter(other -> other.id() != song.id()).toList();
    if (others.size() < Trend.LEAST_SONGS) {
      return new Unusual(
          List.of(),
          song.chordBits(),
          Optional.empty(),
          TrendWords.say("unusual.too-few", others.size(), Trend.LEAST_SONGS));
    }
    List<Rare> rare =
        song.techniques().stream()
            .map(technique -> new Rare(technique, share(technique, others)))
            .filter(one -> one.others().high() < RARE_BELOW)
            .sorted(
                Comparator.comparingDouble((Rare one) -> one.others().value())
                    .thenComparing(Rare::technique))
            .toList();
    Optional<Share> less = song.chordBits().flatMap(bits -> lessThan(bits, others));
    return new Unusual(rare, song.chordBits(), less, said(rare, song.chordBits(), less));
  }

  private static Share share(String technique, List<CountedSong> songs) {
    return new Share(
        (int) songs.stream().filter(song -> song.techniques().contains(technique)).count(),
        songs.size());
  }

  private static Optional<Share> lessThan(double bits, List<CountedSong> others) {
    List<Double> heard = others.stream().flatMap(song -> song.chordBits().stream()).toList();
    return heard.size() < Trend.LEAST_SONGS
        ? Optional.empty()
        : Optional.of(new Share((int) heard.stream().filter(b -> b < bits).count(), heard.size()));
  }

  private static String said(List<Rare> rare, Optional<Double> bits, Optional<Share> less) {
    String names =
        String.join(", ", rare.stream().map(one -> one.technique().replace('-', ' ')).toList());
    String techniques =
        rare.isEmpty() ? TrendWords.say("unusual.none") : TrendWords.say("unusual.rare", names);
    return less.map(
            share ->
                techniques
                    + " "
                    + TrendWords.say(
                        "unusual.chords", share.songs(), share.of(), bits.orElseThrow()))
        .orElse(techniques);
  }
}
