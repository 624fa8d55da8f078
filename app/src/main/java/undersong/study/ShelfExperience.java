package undersong.study;

import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import undersong.expectation.ChordExpectation;
import undersong.expectation.ChordSurprise;
import undersong.expectation.ExpectationCounts;
import undersong.expectation.ExpectationSettings;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.shelf.Shelf;
import undersong.technique.Arc;

/**
 * What the songs of a shelf have taught a listener: which chords follow which, and how far sections
 * rise above the middle of their song.
 *
 * <p>Each song's contexts count once, whatever it is called and however often it is read: what is
 * known of a song is forgotten as soon as its reading is another. The newest {@value #MOST_SONGS}
 * songs count. Equal shelves teach equally.
 *
 * <p><b>Cost:</b> a few tens of milliseconds for every song not yet known; then some milliseconds.
 */
final class ShelfExperience {
  static final int MOST_SONGS = 300;

  private final Shelf shelf;
  private final ExpectationCounts charts;
  private final Map<Long, Known> known = new HashMap<>();

  /**
   * @param heights of the highest section of each role
   */
  private record Known(int revision, ExpectationCounts counts, Map<SectionRole, Double> heights) {}

  /**
   * @param charts what is known before any song of the shelf
   */
  ShelfExperience(Shelf shelf, ExpectationCounts charts) {
    this.shelf = shelf;
    this.charts = charts;
  }

  /**
   * Mean surprise of a song's chords to someone who knows the charts and these songs; empty without
   * chords.
   *
   * @param songs that were heard before; the song itself among them does not count
   */
  Optional<Double> bits(long songId, Reading reading, Collection<Long> songs) {
    List<ExpectationCounts> others =
        others(songId, songs).stream().map(Known::counts).filter(c -> c.songs() > 0).toList();
    return bits(reading, new ChordExpectation(charts.plus(others), ExpectationSettings.DEFAULTS));
  }

  static Optional<Double> bits(Reading reading, ChordExpectation expectation) {
    List<ChordSurprise> surprises = expectation.surprises(reading);
    return surprises.isEmpty()
        ? Optional.empty()
        : Optional.of(
            surprises.stream().mapToDouble(ChordSurprise::harmonyBits).average().orElseThrow());
  }

  /** How far the highest section of this role rises in each of the other songs that have one. */
  List<Double> heights(long songId, SectionRole role, Collection<Long> songs) {
    return others(songId, songs).stream()
        .filter(song -> song.heights().containsKey(role))
        .map(song -> song.heights().get(role))
        .toList();
  }

  private synchronized List<Known> others(long songId, Collection<Long> songs) {
    List<Known> others = new ArrayList<>();
    List<Long> newest =
        songs.stream()
            .distinct()
            .filter(song -> song != songId)
            .sorted((one, other) -> Long.compare(other, one))
            .limit(MOST_SONGS)
            .toList();
    known.keySet().removeIf(song -> song != songId && !songs.contains(song));
    for (long song : newest) {
      int revision = shelf.readings().revision(song);
      Known last = known.get(song);
      if (last == null || last.revision() != revision) {
        known.remove(song);
        shelf
            .readings()
            .latest(song)
            .ifPresent(stored -> known.put(song, learned(stored.revision(), stored.reading())));
      }
      Optional.ofNullable(known.get(song)).ifPresent(others::add);
    }
    return others;
  }

  private static Known learned(int revision, Reading reading) {
    return new Known(revision, ExpectationCounts.of(List.of(reading)), highest(Arc.of(reading)));
  }

  /** The highest section of each role; none where nothing in the song can be compared. */
  static Map<SectionRole, Double> highest(Arc arc) {
    Map<SectionRole, Double> highest = new EnumMap<>(SectionRole.class);
    if (arc.climax().isPresent()) {
      for (Arc.Stage stage : arc.stages()) {
        highest.merge(stage.section().role(), stage.height(), Math::max);
      }
    }
    return highest;
  }
}
