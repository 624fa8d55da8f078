package undersong.bench.render;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.bench.data.Chart;
import undersong.bench.metrics.ChordCode;
import undersong.bench.metrics.HarteChord;
import undersong.bench.metrics.SungNote;
import undersong.bench.metrics.Timed;

class ArrangementTest {
  private static Song song(String id, Style style, double early, double drift, double swing) {
    return new Song(
        id, 0, 99, style.name(), 100, swing, drift, early, 20, Song.Lead.PLAYED, false, Set.of());
  }

  private static Truth truth(Song song) throws IOException {
    Chart chart = new Charts().find(song.chartId());
    return TruthWriter.write(Arrangement.of(song, chart), List.of(), Staging.NONE);
  }

  @ParameterizedTest
  @EnumSource(Style.class)
  void playsTheChordsBassWhenAChordArrives(Style style) throws IOException {
    Truth truth = truth(song("own-inversions", style, 0.4, 0.01, 1));
    for (Timed<String> span : truth.chords()) {
      ChordCode chord = HarteChord.parse(span.value());
      if (chord.sounds()) {
        assertThat(truth.bass())
            .filteredOn(n -> Math.abs(n.startSeconds() - span.startSeconds()) < 1e-6)
            .as("bass at %s", span)
            .singleElement()
            .satisfies(n -> assertThat(n.pitchClass()).isEqualTo(chord.bassPitchClass()));
      }
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "own-inversions",
        "own-sevenths",
        "own-open",
        "own-waltz",
        "own-sixeight",
        "own-five",
        "own-lift",
        "own-early"
      })
  void statesATruthWithoutGaps(String id) throws IOException {
    Truth truth = truth(song(id, Style.ROCK, 0.3, 0, 1));
    for (int i = 1; i < truth.chords().size(); i++) {
      assertThat(truth.chords().get(i).startSeconds())
          .isCloseTo(truth.chords().get(i - 1).endSeconds(), within(1e-9));
    }
    assertThat(truth.beats()).containsAll(truth.downbeats()).isSorted();
    assertThat(truth.sections().size()).isGreaterThan(2);
    assertThat(truth.melody()).isNotEmpty();
  }

  @Test
  void keepsThirdsAwayWhereThereAreNone() throws IOException {
    Song song = song("own-open", Style.HEAVY, 0, 0, 1);
    Arrangement arrangement = Arrangement.of(song, new Charts().find("own-open"));
    Truth truth = TruthWriter.write(arrangement, List.of(), Staging.NONE);
    for (Timed<String> span : truth.chords()) {
      ChordCode chord = HarteChord.parse(span.value());
      if (chord.sounds() && !chord.hasThird()) {
        for (Part part : arrangement.parts()) {
          if (part.role() != Part.Role.DRUMS) {
            assertThat(part.notes())
                .filteredOn(
                    n -> {
                      double start = arrangement.tempo().secondsAt(n.startBeat());
                      int above = Math.floorMod(n.pitch() - chord.root(), 12);
                      return start >= span.startSeconds() - 1e-6
                          && start < span.endSeconds() - 1e-6
                          && (above == 3 || above == 4);
                    })
                .as("thirds of %s in %s", span, part.role())
                .isEmpty();
          }
        }
      }
    }
  }

  @Test
  void bringsEarlyChordsHalfABeatEarly() throws IOException {
    Truth truth = truth(song("own-early", Style.ROCK, 1, 0, 1));
    assertThat(truth.changes())
        .allSatisfy(c -> assertThat(c.beatSeconds() - c.seconds()).isCloseTo(0.3, within(1e-9)));
    assertThat(truth.techniques()).extracting(Timed::value).contains("anticipated-changes");
  }

  @Test
  void plantsTheKeyLift() throws IOException {
    Truth truth = truth(song("own-lift", Style.DANCE, 0, 0, 1));
    assertThat(truth.techniques()).extracting(Timed::value).containsExactly("key-lift");
    assertThat(truth.keys()).hasSize(2);
  }

  @Test
  void swingsWithinTheBeatOnly() {
    TempoMap tempo = TempoMap.of(8, 60, 0, 0, 2, new Random(1));
    assertThat(tempo.secondsAt(3)).isEqualTo(3);
    assertThat(tempo.secondsAt(3.5)).isCloseTo(3 + 2.0 / 3, within(1e-9));
  }

  @Test
  void singsThePitchItStates() {
    float[] voice = new float[2 * Wave.RATE_HZ];
    List<Double> curve =
        new FormantSinger(new Random(4), 1).sing(List.of(new SungNote(0.2, 1.8, 57)), voice);
    double stated = curve.get(100);
    // strongest autocorrelation lag around 1 s
    int best = 0;
    double bestSum = 0;
    for (int lag = 100; lag < 400; lag++) {
      double sum = 0;
      for (int i = 0; i < 4000; i++) {
        sum += voice[Wave.RATE_HZ - 2000 + i] * voice[Wave.RATE_HZ - 2000 + i + lag];
      }
      if (sum > bestSum) {
        bestSum = sum;
        best = lag;
      }
    }
    assertThat(1200 * Math.log((double) Wave.RATE_HZ / best / stated) / Math.log(2))
        .isBetween(-25.0, 25.0);
    assertThat(curve.get(5)).isZero();
  }

  @Test
  void stretchesTheTruthWithTheTape() throws IOException {
    Truth truth = truth(song("own-waltz", Style.CHAMBER, 0, 0.02, 1));
    Truth faster = truth.stretched(1.02, 34);
    assertThat(faster.beats().get(10)).isCloseTo(truth.beats().get(10) / 1.02, within(1e-9));
    assertThat(faster.tuningCents()).isEqualTo(34);
    assertThat(faster.curve().stream().filter(h -> h > 0).findFirst().orElseThrow())
        .isCloseTo(
            1.02 * truth.curve().stream().filter(h -> h > 0).findFirst().orElseThrow(),
            within(1e-6));
  }
}
