package undersong.bench.lesson;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import undersong.bench.metrics.SungNote;
import undersong.bench.render.Staging;
import undersong.bench.render.Truth;
import undersong.reading.Bar;
import undersong.reading.Beats;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Melody;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.TimeSignature;
import undersong.time.BeatGrid;
import undersong.time.Span;

/** The counting of notes written down, on a tune of eight notes at 120 beats a minute. */
class HeardNotationTest {
  private static final List<SungNote> TUNE =
      List.of(
          new SungNote(0, 0.5, 60),
          new SungNote(0.5, 0.75, 62),
          new SungNote(0.75, 1, 64),
          new SungNote(1, 2, 65),
          new SungNote(2, 2.5, 67),
          new SungNote(2.5, 3, 65),
          new SungNote(3, 3.5, 64),
          new SungNote(3.5, 4, 62));

  @Test
  void whatIsHeardAsPlayedIsWrittenAsPlayed() {
    assertThat(rows(heard(TUNE, 0, 0)))
        .contains(
            "| beats and tune heard | 1 | 8 | 1.000 | 1.000 | 1.000 | 1.000 | 1.000 | 1.000 |");
  }

  /** Two notes told as one: one is not begun, the other lasts too long. */
  @Test
  void whatHearingCostsIsKeptApart() {
    List<SungNote> joined =
        IntStream.range(0, TUNE.size())
            .filter(i -> i != 2)
            .mapToObj(i -> i == 1 ? new SungNote(0.5, 1, 62) : TUNE.get(i))
            .toList();
    assertThat(rows(heard(joined, 0, 0)))
        .contains(
            "| beats and tune given | 1 | 8 | 1.000 | 1.000 | 1.000 | 1.000 | 1.000 | 1.000 |")
        .contains(
            "| beats and tune heard | 1 | 8 | 0.875 | 0.750 | 1.000 | 1.000 | 0.857 | 0.750 |");
  }

  /**
   * Bars two beats late: what comes before them stands in a pick-up, which begins where the true
   * bar does; the next three notes stand in a wrong bar, and two lie behind the last.
   */
  @Test
  void barsOnTheWrongBeatAreWrong() {
    assertThat(rows(heard(TUNE, 2, 0)))
        .contains(
            "| beats and tune heard | 1 | 8 | 1.000 | 1.000 | 0.750 | 0.375 | 0.750 | 0.750 |");
  }

  @Test
  void beatsBetweenTheBeatsCostValues() {
    String row = rows(heard(TUNE, 0, 0.125)).lines().skip(2).findFirst().orElseThrow();
    double ofAll = Double.parseDouble(row.split("\\|", -1)[10].strip());
    assertThat(ofAll).as(row).isLessThan(0.3);
  }

  private static String rows(Reading reading) {
    HeardNotation notation = new HeardNotation("made");
    notation.count(truth(), reading);
    return notation.rows();
  }

  /**
   * @param lateBeats by which bars are heard late
   * @param lateSeconds by which beats are
   */
  private static Reading heard(List<SungNote> tune, int lateBeats, double lateSeconds) {
    BeatGrid grid =
        BeatGrid.of(IntStream.range(0, 9).mapToDouble(i -> i * 0.5 + lateSeconds).toArray());
    List<Bar> bars =
        IntStream.range(0, 2 - lateBeats / 2)
            .mapToObj(
                i -> {
                  int first = 4 * i + lateBeats;
                  return new Bar(
                      i + 1,
                      first,
                      4,
                      TimeSignature.FOUR_FOUR,
                      new Span(grid.secondsAt(first), grid.secondsAtPosition(first + 4)));
                })
            .toList();
    return Reading.empty(5)
        .with(Facet.BEATS, Derived.of(new Beats(grid, 2, 1, 1, List.of())))
        .with(Facet.METER, Derived.of(new Meter(bars, 1, List.of())))
        .with(
            Facet.MELODY,
            Derived.of(
                new Melody(
                    tune.stream()
                        .map(
                            n ->
                                new NoteEvent(
                                    new Span(n.startSeconds(), n.endSeconds()), n.midiPitch(), 1))
                        .toList())));
  }

  private static Truth truth() {
    return new Truth(
        "made-1",
        5,
        0,
        "4/4",
        120,
        1,
        false,
        IntStream.range(0, 9).mapToObj(i -> i * 0.5).toList(),
        List.of(0.0, 2.0),
        List.of(),
        List.of(),
        List.of(),
        List.of(),
        TUNE,
        List.of(),
        false,
        List.of(),
        List.of(),
        Staging.NONE,
        List.of());
  }
}
