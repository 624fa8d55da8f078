package undersong.study;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
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

  @ParameterizedTest
  @CsvSource({"low-water, 0.88", "count-the-ferries, 0.72", "tar-and-honey, 0.78"})
  void sectionsBeginWhereTheyArePlayed(String id, double atLeast) {
    double[] heard = sectionStarts(HEARD.get(id));
    double[] truth = sectionStarts(truth(id));
    assertThat(hitRate(truth, heard, BOUNDARY_TOLERANCE_SECONDS)).isGreaterThan(atLeast);
  }

  @Test
  void theChorusThatComesBackIsTheSameMusic() {
    assertThat(sharesLetter("low-water", 3, 5)).isTrue();
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
