package undersong.bench.charts;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import undersong.bench.charts.ReducedCharts.Kept;
import undersong.bench.data.Chart;
import undersong.expectation.ChordExpectation;
import undersong.expectation.ChordSurprise;
import undersong.expectation.ExpectationCounts;
import undersong.expectation.ExpectationSettings;
import undersong.reading.Reading;

/** Bits per chord on songs whose charts were not counted. */
final class ExpectationFigures {
  private static final int FOLDS = 10;

  /** Who listens, and what they know. */
  enum Listener {
    OTHER_SONGS("other songs only", ExpectationSettings.DEFAULTS.withoutSong()),
    NOT_WHEN("and this song so far", ExpectationSettings.DEFAULTS.withoutWhen()),
    ALL("and how long the chord before lasted", ExpectationSettings.DEFAULTS);

    private final String words;
    private final ExpectationSettings settings;

    Listener(String words, ExpectationSettings settings) {
      this.words = words;
      this.settings = settings;
    }

    String words() {
      return words;
    }
  }

  /**
   * @param chordBits per chord, pooled over all chords
   * @param arrivalBits per chord, for the moment it arrives
   */
  record Row(Kept kept, Listener listener, int chords, double chordBits, double arrivalBits) {}

  private ExpectationFigures() {}

  /** Counts nine tenths of the songs, asks about the others, ten times. */
  static List<Row> tenfold(List<Chart> songs) {
    List<Row> rows = new ArrayList<>();
    for (Kept kept : Kept.values()) {
      List<Reading> readings = readings(songs, kept);
      List<Sum> sums = Sum.forAll();
      for (int f = 0; f < FOLDS; f++) {
        int fold = f;
        ExpectationCounts counts =
            ExpectationCounts.of(select(readings, i -> i % FOLDS != fold)).pruned();
        ask(counts, select(readings, i -> i % FOLDS == fold), sums);
      }
      sums.forEach(sum -> rows.add(sum.row(kept)));
    }
    return rows;
  }

  /** Counts some songs, asks about others. */
  static List<Row> apart(List<Chart> counted, List<Chart> asked) {
    List<Row> rows = new ArrayList<>();
    for (Kept kept : Kept.values()) {
      List<Sum> sums = Sum.forAll();
      ask(ExpectationCounts.of(readings(counted, kept)).pruned(), readings(asked, kept), sums);
      sums.forEach(sum -> rows.add(sum.row(kept)));
    }
    return rows;
  }

  private static List<Reading> readings(List<Chart> songs, Kept kept) {
    return songs.stream()
        .map(song -> ChartReadings.read(ReducedCharts.reduce(song, kept)))
        .toList();
  }

  private static List<Reading> select(
      List<Reading> readings, java.util.function.IntPredicate wanted) {
    return IntStream.range(0, readings.size()).filter(wanted).mapToObj(readings::get).toList();
  }

  private static void ask(ExpectationCounts counts, List<Reading> songs, List<Sum> sums) {
    for (Sum sum : sums) {
      ChordExpectation expectation = new ChordExpectation(counts, sum.listener.settings);
      songs.forEach(song -> expectation.surprises(song).forEach(sum::add));
    }
  }

  private static final class Sum {
    private final Listener listener;
    private int chords;
    private double chordBits;
    private double arrivalBits;

    private Sum(Listener listener) {
      this.listener = listener;
    }

    static List<Sum> forAll() {
      return java.util.Arrays.stream(Listener.values()).map(Sum::new).toList();
    }

    void add(ChordSurprise surprise) {
      chords++;
      chordBits += surprise.bits();
      arrivalBits += surprise.arrivalBits();
    }

    Row row(Kept kept) {
      return new Row(kept, listener, chords, chordBits / chords, arrivalBits / chords);
    }
  }
}
