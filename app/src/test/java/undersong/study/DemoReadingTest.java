package undersong.study;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.reading.Bar;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.reading.Section;
import undersong.render.DemoRenderer;
import undersong.render.DemoSong;
import undersong.render.DemoSongs;
import undersong.render.WavFile;
import undersong.theory.ChordQuality;
import undersong.theory.ChordSymbol;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.LeadSheet;

/**
 * The whole path on the demo songs: what was planted comes out. The songs were never used for
 * setting anything in the estimators, so a limit here is what they reach, not what they were fitted
 * to; each limit stands a little below what was measured when it was written.
 */
class DemoReadingTest {
  /** What a beat may miss by (the field's usual tolerance, as in mir_eval's beat metrics). */
  private static final double BEAT_TOLERANCE_SECONDS = 0.07;

  /** The wider of the two usual tolerances for section boundaries. */
  private static final double BOUNDARY_TOLERANCE_SECONDS = 3;

  /** How closely readings are compared in time. */
  private static final double STEP_SECONDS = 0.05;

  private static final Map<String, Reading> HEARD = new LinkedHashMap<>();
  private static final Map<String, DemoSong> SONGS = new LinkedHashMap<>();

  @BeforeAll
  static void studyEverySong(@TempDir Path folder) throws IOException {
    try (Study study = Study.on(folder.resolve("shelf.db"))) {
      for (DemoSong song : DemoSongs.all()) {
        Path file = folder.resolve(song.id() + ".wav");
        WavFile.write(DemoRenderer.render(song), file);
        SONGS.put(song.id(), song);
        HEARD.put(song.id(), study.study(file).stored().reading());
      }
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"low-water", "count-the-ferries", "tar-and-honey"})
  void tempoComesOutWithinOnePercent(String id) {
    double bpm = SONGS.get(id).score().bpm();
    assertThat(HEARD.get(id).get(Facet.BEATS).grid().medianBpm()).isCloseTo(bpm, within(bpm / 100));
  }

  @ParameterizedTest
  @ValueSource(strings = {"low-water", "count-the-ferries", "tar-and-honey"})
  void beatsComeOutWhereTheyArePlayed(String id) {
    double[] heard = HEARD.get(id).get(Facet.BEATS).grid().toArray();
    double[] truth = truth(id).get(Facet.BEATS).grid().toArray();
    assertThat(hitRate(truth, heard, BEAT_TOLERANCE_SECONDS)).isGreaterThan(0.94);
  }

  @ParameterizedTest
  @CsvSource({"low-water, 1.0", "count-the-ferries, 1.0", "tar-and-honey, 1.8"})
  void swingComesOut(String id, double ratio) {
    assertThat(HEARD.get(id).get(Facet.BEATS).swingRatio()).isCloseTo(ratio, within(0.2));
  }

  @ParameterizedTest
  @ValueSource(strings = {"low-water", "count-the-ferries", "tar-and-honey"})
  void meterAndDownbeatsComeOutAlsoUnderEarlyChords(String id) {
    var meter = HEARD.get(id).get(Facet.METER);
    assertThat(meter.mainSignature()).isEqualTo(SONGS.get(id).score().meter());
    double[] heard = starts(meter.bars());
    double[] truth = starts(truth(id).get(Facet.METER).bars());
    assertThat(hitRate(truth, heard, BEAT_TOLERANCE_SECONDS)).isGreaterThan(0.94);
  }

  /** Measured 0.750 and above 0.80 twice; the settings are those best on the tuning songs. */
  @ParameterizedTest
  @CsvSource({"low-water, 0.74", "count-the-ferries, 0.80", "tar-and-honey, 0.80"})
  void sectionsBeginWhereTheyArePlayed(String id, double atLeast) {
    double[] heard = sectionStarts(HEARD.get(id));
    double[] truth = sectionStarts(truth(id));
    assertThat(hitRate(truth, heard, BOUNDARY_TOLERANCE_SECONDS)).isGreaterThan(atLeast);
  }

  /** Not told in the first song, whose second verse and first chorus are heard as one section. */
  @Test
  void musicThatComesBackIsTheSameMusic() {
    assertThat(sharesLetter("count-the-ferries", 3, 5)).isTrue();
    assertThat(sharesLetter("tar-and-honey", 0, 6)).isTrue();
  }

  @Test
  void loudnessComesOutAtTheLevelTheSongsAreMixedTo() {
    HEARD.forEach(
        (id, reading) ->
            assertThat(reading.get(Facet.DYNAMICS).integratedLufs())
                .as(id)
                .isCloseTo(-16, within(0.7)));
  }

  @ParameterizedTest
  @CsvSource({"low-water, 0", "count-the-ferries, 0", "tar-and-honey, 18"})
  void tuningComesOutWithinThreeCents(String id, double cents) {
    assertThat(HEARD.get(id).get(Facet.TUNING).cents()).isCloseTo(cents, within(3.0));
  }

  @ParameterizedTest
  @ValueSource(strings = {"low-water", "count-the-ferries", "tar-and-honey"})
  void tonicAndModeComeOut(String id) {
    assertThat(HEARD.get(id).get(Facet.KEYS).mainKey())
        .isEqualTo(truth(id).get(Facet.KEYS).mainKey());
  }

  @Test
  void theKeyLiftComesOut() {
    var lifted = truth("count-the-ferries").get(Facet.FORM).sections().get(8).span();
    assertThat(HEARD.get("count-the-ferries").get(Facet.KEYS).keyAt(lifted.middleSeconds()))
        .hasValueSatisfying(key -> assertThat(key).hasToString("E major"));
  }

  /** Measured 0.865, 0.938 and 0.998: open fifths heard as minor are the most of what is missed. */
  @ParameterizedTest
  @CsvSource({"low-water, 0.83", "count-the-ferries, 0.90", "tar-and-honey, 0.95"})
  void chordsComeOutAsMajorOrMinorMostOfTheTime(String id, double atLeast) {
    assertThat(
            share(
                id,
                (truth, heard) ->
                    truth.quality().hasNoThird()
                        ? Optional.empty()
                        : Optional.of(
                            heard.root().pitchClass() == truth.root().pitchClass()
                                && heard.quality().hasMajorThird()
                                    == truth.quality().hasMajorThird()
                                && heard.quality().hasMinorThird()
                                    == truth.quality().hasMinorThird())))
        .isGreaterThan(atLeast);
  }

  @Test
  void noThirdIsInventedWhereTheFirstVerseLeavesItOut() {
    assertThat(
            share(
                "low-water",
                (truth, heard) ->
                    truth.quality().hasNoThird()
                        ? Optional.of(heard.quality().hasNoThird())
                        : Optional.empty()))
        .isGreaterThan(0.8);
  }

  @ParameterizedTest
  @CsvSource({
    "low-water, 22, G/D",
    "low-water, 24, B7",
    "low-water, 26, Em/G",
    "low-water, 20, B",
    "low-water, 33, Am",
    "low-water, 34, A",
    "low-water, 35, Am",
    "low-water, 36, A",
    "low-water, 28, Em",
    "low-water, 48, C",
    "count-the-ferries, 20, Gm",
    "count-the-ferries, 31, Bb",
    "count-the-ferries, 32, C",
    "tar-and-honey, 37, Eb"
  })
  void thePlantedChordComesOut(String id, int bar, String chord) {
    double middle = truth(id).get(Facet.METER).bars().get(bar - 1).span().middleSeconds();
    assertThat(
            LeadSheet.print(HEARD.get(id).get(Facet.CHORDS).chordAt(middle).orElseThrow().symbol()))
        .isEqualTo(chord);
  }

  /** Measured with the trained ear, of the time in which a bass plays (0.921 in the second). */
  @ParameterizedTest
  @CsvSource({"low-water, 0.95", "count-the-ferries, 0.90", "tar-and-honey, 0.89"})
  void theBassComesOutAsPitchClasses(String id, double atLeast) {
    int played = 0;
    int right = 0;
    for (double at = 0; at < truth(id).durationSeconds(); at += STEP_SECONDS) {
      var truth = truth(id).get(Facet.BASS).noteAt(at);
      var heard = HEARD.get(id).get(Facet.BASS).noteAt(at);
      if (truth.isPresent()) {
        played++;
        boolean same = heard.filter(n -> n.pitchClass() == truth.get().pitchClass()).isPresent();
        right += same ? 1 : 0;
      }
    }
    assertThat((double) right / played).isGreaterThan(atLeast);
  }

  @Test
  void everyFullChorusIsToldToComeHalfABeatEarlyAndNoVerseIs() {
    for (int section : new int[] {3, 5, 8}) {
      assertThat(shareEarly("count-the-ferries", section)).isGreaterThanOrEqualTo(0.75);
    }
    for (int section : new int[] {1, 4}) {
      assertThat(shareEarly("count-the-ferries", section)).isZero();
    }
  }

  /** Share of the chords of a section that are said to arrive half a beat before their place. */
  private static double shareEarly(String id, int section) {
    Section wanted = truth(id).get(Facet.FORM).sections().get(section);
    double halfBeat = 30 / SONGS.get(id).score().bpm();
    List<Double> arrivals =
        HEARD.get(id).get(Facet.HARMONY).events().stream()
            .filter(event -> event.numeral().isPresent())
            // Half a beat before the section belongs to it; half a beat before its end does not.
            .filter(e -> wanted.span().contains(e.span().startSeconds() + 1.3 * halfBeat))
            .filter(e -> e.span().startSeconds() < wanted.span().endSeconds() - 1.3 * halfBeat)
            .map(event -> event.arrivalBeats())
            .toList();
    assertThat(arrivals).as("chords of section %d", section).hasSizeGreaterThan(5);
    long early = arrivals.stream().filter(beats -> Math.abs(beats + 0.5) < 0.15).count();
    return (double) early / arrivals.size();
  }

  /**
   * Share of the time in which a named chord sounds that a comparison, where it applies, is true.
   */
  private static double share(String id, BiFunction<Chord, Chord, Optional<Boolean>> compare) {
    int applies = 0;
    int right = 0;
    double end = truth(id).durationSeconds() - SONGS.get(id).score().tailSeconds();
    for (double at = 0; at < end; at += STEP_SECONDS) {
      ChordSymbol truth = truth(id).get(Facet.CHORDS).chordAt(at).orElseThrow().symbol();
      ChordSymbol heard = HEARD.get(id).get(Facet.CHORDS).chordAt(at).orElseThrow().symbol();
      if (!(truth instanceof Chord wanted)) {
        continue;
      }
      Chord nothing = ChordSymbol.of(wanted.root().up(6), ChordQuality.FIFTH);
      Chord given = heard instanceof Chord chord ? chord : nothing;
      Optional<Boolean> verdict = compare.apply(wanted, given);
      applies += verdict.isPresent() ? 1 : 0;
      right += verdict.orElse(false) ? 1 : 0;
    }
    assertThat(applies).isGreaterThan(100);
    return (double) right / applies;
  }

  private static boolean sharesLetter(String id, int section, int other) {
    List<Section> truth = truth(id).get(Facet.FORM).sections();
    var form = HEARD.get(id).get(Facet.FORM);
    String one = form.sectionAt(truth.get(section).span().middleSeconds()).orElseThrow().letter();
    String two = form.sectionAt(truth.get(other).span().middleSeconds()).orElseThrow().letter();
    return one.equals(two);
  }

  private static Reading truth(String id) {
    return SONGS.get(id).truth().reading();
  }

  private static double[] starts(List<Bar> bars) {
    return bars.stream().mapToDouble(bar -> bar.span().startSeconds()).toArray();
  }

  private static double[] sectionStarts(Reading reading) {
    return reading.get(Facet.FORM).sections().stream()
        .mapToDouble(section -> section.span().startSeconds())
        .toArray();
  }

  /** F-measure of times that meet within a tolerance, each at most once. */
  private static double hitRate(double[] truth, double[] heard, double tolerance) {
    boolean[] taken = new boolean[heard.length];
    int hits = 0;
    for (double time : truth) {
      int nearest = -1;
      for (int i = 0; i < heard.length; i++) {
        double distance = Math.abs(heard[i] - time);
        if (!taken[i]
            && distance <= tolerance
            && (nearest < 0 || distance < Math.abs(heard[nearest] - time))) {
          nearest = i;
        }
      }
      if (nearest >= 0) {
        taken[nearest] = true;
        hits++;
      }
    }
    assertThat(heard).as("times heard, against %s", Arrays.toString(truth)).isNotEmpty();
    return 2.0 * hits / (truth.length + heard.length);
  }
}
