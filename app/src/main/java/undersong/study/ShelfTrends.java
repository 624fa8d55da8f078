package undersong.study;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import undersong.expectation.ChordExpectation;
import undersong.expectation.ExpectationCounts;
import undersong.expectation.ExpectationSettings;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.shelf.Origin;
import undersong.shelf.Shelf;
import undersong.shelf.StoredReading;
import undersong.technique.Arc;
import undersong.trend.Counted;
import undersong.trend.CountedSong;
import undersong.trend.Experience;
import undersong.trend.NumeralLine;
import undersong.trend.Share;
import undersong.trend.Trend;
import undersong.trend.Trend.Grouping;
import undersong.trend.Trends;
import undersong.trend.Unusual;
import undersong.work.Trouble;

/**
 * What the whole shelf shows: how common a thing is, and how unusual a song.
 *
 * <p><b>Cost:</b> songs that were read anew since the last question are counted first (a few tens
 * of milliseconds each); then O(songs).
 */
public final class ShelfTrends {
  private final Shelf shelf;
  private final CurrentFindings findings;
  private Optional<ChordExpectation> expectation = Optional.empty();
  private Optional<ShelfExperience> learned = Optional.empty();

  ShelfTrends(Shelf shelf, CurrentFindings findings) {
    this.shelf = shelf;
    this.findings = findings;
  }

  /**
   * How often a thing occurs.
   *
   * @param origins which songs count; recordings, charts and memories are kept apart unless asked
   *     for together
   * @param within words each song must hold in title, artist, year, key, meter or file; "" for all
   */
  public Trend of(Counted what, Grouping grouping, Set<Origin> origins, String within) {
    List<CountedSong> songs = songs(origins);
    if (!within.isBlank()) {
      Set<Long> asked =
          shelf.songs().list(within).stream()
              .map(entry -> entry.song().id())
              .collect(java.util.stream.Collectors.toSet());
      songs = songs.stream().filter(song -> asked.contains(song.id())).toList();
    }
    return Trends.of(songs, what, grouping);
  }

  /** What sets a song apart from the others of these origins; throws {@link Trouble.NotOnShelf}. */
  public Unusual unusual(long songId, Set<Origin> origins) {
    shelf.songs().get(songId);
    List<CountedSong> all = songs(Set.of(Origin.values()));
    CountedSong song =
        all.stream()
            .filter(one -> one.id() == songId)
            .findFirst()
            .orElseThrow(
                () ->
                    new Trouble.NotOnShelf(
                        "Song %d has no reading that could be counted. Study it again."
                            .formatted(songId)));
    return Unusual.of(song, all.stream().filter(one -> isOf(one, origins)).toList());
  }

  private List<CountedSong> songs(Set<Origin> origins) {
    countNewOnes();
    return shelf.counted().list().stream().filter(song -> isOf(song, origins)).toList();
  }

  private static boolean isOf(CountedSong song, Set<Origin> origins) {
    return origins.contains(Origin.named(song.origin()));
  }

  private synchronized void countNewOnes() {
    for (long songId : shelf.counted().stale(NumeralLine.VERSION, TechniqueFinders.VERSION)) {
      Optional<StoredReading> stored = shelf.readings().latest(songId);
      stored.ifPresent(this::count);
    }
  }

  private void count(StoredReading stored) {
    findings.of(stored);
    shelf
        .counted()
        .keep(
            stored.songId(),
            stored.revision(),
            NumeralLine.VERSION,
            NumeralLine.of(stored.reading()),
            bits(stored.reading()));
  }

  /**
   * A song to a listener who knows the other songs of these origins; throws {@link
   * Trouble.NotOnShelf}.
   */
  public Experience experience(long songId, Set<Origin> origins) {
    shelf.songs().get(songId);
    Reading reading =
        shelf
            .readings()
            .latest(songId)
            .map(StoredReading::reading)
            .orElseThrow(
                () ->
                    new Trouble.NotOnShelf(
                        "Song %d has no reading. Study it again.".formatted(songId)));
    List<Long> others =
        songs(origins).stream().map(CountedSong::id).filter(id -> id != songId).toList();
    Optional<Double> byShelf =
        Experience.isTellable(others.size())
            ? learned().bits(songId, reading, others)
            : Optional.empty();
    List<Experience.Energy> energies = new ArrayList<>();
    for (Map.Entry<SectionRole, Double> one : ShelfExperience.highest(Arc.of(reading)).entrySet()) {
      List<Double> heights = learned().heights(songId, one.getKey(), others);
      if (one.getKey() != SectionRole.OTHER && Experience.isTellable(heights.size())) {
        int lower = (int) heights.stream().filter(height -> height < one.getValue()).count();
        energies.add(
            new Experience.Energy(
                one.getKey().words(), one.getValue(), new Share(lower, heights.size())));
      }
    }
    int counted = Math.min(others.size(), ShelfExperience.MOST_SONGS);
    return new Experience(bits(reading), byShelf, counted, energies);
  }

  private synchronized ShelfExperience learned() {
    if (learned.isEmpty()) {
      learned = Optional.of(new ShelfExperience(shelf, ExpectationCounts.ofCharts()));
    }
    return learned.get();
  }

  /**
   * Mean surprise of a song's chords to someone who knows the open charts; empty without chords.
   */
  private synchronized Optional<Double> bits(Reading reading) {
    if (expectation.isEmpty()) {
      expectation =
          Optional.of(
              new ChordExpectation(ExpectationCounts.ofCharts(), ExpectationSettings.DEFAULTS));
    }
    return ShelfExperience.bits(reading, expectation.get());
  }
}
