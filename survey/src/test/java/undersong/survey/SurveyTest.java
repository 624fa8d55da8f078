package undersong.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.RowFactory;
import org.apache.spark.sql.SparkSession;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledForJreRange;
import org.junit.jupiter.api.condition.JRE;
import org.junit.jupiter.api.io.TempDir;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.render.DemoRenderer;
import undersong.render.DemoSongs;
import undersong.render.StereoAudio;
import undersong.render.WavFile;
import undersong.shelf.Song;
import undersong.study.Studied;
import undersong.study.Study;

/** Spark 4.1 does not run on Java 25; these tests then say that they were left out. */
@EnabledForJreRange(max = JRE.JAVA_21)
class SurveyTest {
  private static final int SECONDS = 8;

  @TempDir private static Path songs;
  @TempDir private Path folder;
  private static List<Source> sources;

  /** Two stretches of a demo song, a copy of one, a file that is no recording, one that is gone. */
  @BeforeAll
  static void render() throws IOException {
    StereoAudio song = DemoRenderer.render(DemoSongs.all().get(0));
    stretch(song, 10, songs.resolve("a.wav"));
    stretch(song, 40, songs.resolve("b.wav"));
    Files.copy(songs.resolve("a.wav"), songs.resolve("again.wav"));
    Files.writeString(songs.resolve("broken.wav"), "no sound at all");
    Path list =
        Files.writeString(
            songs.resolve("list.txt"),
            "a.wav\t1987\tThe Two\tFirst\nb.wav\t1991\nagain.wav\nbroken.wav\ngone.wav\n"
                + songs.resolve("b.wav").toUri()
                + "\n");
    sources = Sources.in(list);
  }

  private static void stretch(StereoAudio song, int fromSecond, Path file) throws IOException {
    int rate = StereoAudio.SAMPLE_RATE_HZ;
    WavFile.write(
        StereoAudio.of(
            Arrays.copyOfRange(song.left(), fromSecond * rate, (fromSecond + SECONDS) * rate),
            Arrays.copyOfRange(song.right(), fromSecond * rate, (fromSecond + SECONDS) * rate)),
        file);
  }

  @Test
  void clusterGivesTheRowsOfOneMachineAndNothingIsStudiedTwice() throws IOException {
    SurveyFolder here = new SurveyFolder(folder.resolve("here"));
    SurveyFolder there = new SurveyFolder(folder.resolve("there"));
    List<Row> local;
    try (SparkSession spark = SurveySession.open("local[2]", "1g")) {
      Survey.Outcome first = new Survey(spark, here, line -> {}).run(sources);
      assertThat(first.studied()).isEqualTo(2);
      assertThat(first.twins()).isEqualTo(2);
      assertThat(first.failures())
          .containsOnlyKeys(
              songs.resolve("broken.wav").toString(), songs.resolve("gone.wav").toString());
      assertThat(Files.readString(here.failures())).contains("broken.wav\t", "gone.wav\t");
      local = sorted(here.rows(spark));
      assertThat(local).hasSize(2);

      Survey.Outcome second = new Survey(spark, here, line -> {}).run(sources);
      assertThat(second.studied()).isZero();
      assertThat(second.known()).isEqualTo(2);
      assertThat(second.failures()).isEqualTo(first.failures());
      assertThat(sorted(here.rows(spark))).isEqualTo(local);
      assertThat(shelved(spark, here)).isEqualTo(readings(local));
    }
    Path options = Path.of("java.options").toAbsolutePath();
    try (LocalCluster cluster = new LocalCluster(2, "1g", folder.resolve("cluster"), options);
        SparkSession spark = SurveySession.open(cluster.address(), "1g")) {
      Survey.Outcome far = new Survey(spark, there, line -> {}).run(sources);
      assertThat(far.studied()).isEqualTo(2);
      assertThat(sorted(there.rows(spark))).isEqualTo(local);
      assertThat(Files.readString(there.failures())).isEqualTo(Files.readString(here.failures()));
    }
    assertThat(readings(local)).isEqualTo(studiedByTheProgram());
  }

  /** Counted by hand from the four rows below. */
  @Test
  void countsEachSongOnceInItsYear() throws IOException {
    try (SparkSession spark = SurveySession.open("local[1]", "1g")) {
      Dataset<Row> rows =
          spark.createDataFrame(
              List.of(
                  row("1", "", 1990, 0, " I V vi IV I V vi IV ", "pedal-point", "key-lift"),
                  row("2", "", 1985, 1990, " I V vi IV ", "pedal-point"),
                  row("3", "", 0, 1991, " I V | vi IV ii V I ", "pedal-point"),
                  row("4", "too short", 1990, 0, " ")),
              SurveyedSong.COLUMNS);
      assertThat(YearCounts.techniques(rows))
          .extracting(line -> line.year() + " " + line.what() + " " + line.share())
          .containsExactly(
              "1990 pedal-point Share[songs=2, of=2]",
              "1990 key-lift Share[songs=1, of=2]",
              "1991 pedal-point Share[songs=1, of=1]");
      assertThat(YearCounts.progressions(rows))
          .extracting(line -> line.year() + " " + line.what() + " " + line.share())
          .containsExactly("1990 I V vi IV Share[songs=2, of=2]");
    }
  }

  private static Row row(
      String hash, String failure, int tagYear, int saidYear, String line, String... techniques) {
    return RowFactory.create(
        hash,
        hash,
        "1",
        failure,
        1.0,
        "",
        "",
        tagYear,
        "",
        "",
        saidYear,
        techniques,
        line,
        "1",
        "1",
        "{}");
  }

  private static List<Row> sorted(Dataset<Row> rows) {
    return rows.orderBy("content_hash").collectAsList();
  }

  private static Map<String, Reading> readings(List<Row> rows) {
    return rows.stream()
        .map(SurveyedSong::heard)
        .collect(
            java.util.stream.Collectors.toMap(
                heard -> heard.facts().contentHash(), heard -> heard.reading()));
  }

  /** What the shelf holds once the survey was put on it, twice. */
  private Map<String, Reading> shelved(SparkSession spark, SurveyFolder survey) {
    try (Study study = Study.on(folder.resolve("shelf.db"))) {
      String version = Worker.study().version();
      assertThat(Shelving.shelve(spark, survey, version, study).kept()).isEqualTo(2);
      assertThat(Shelving.shelve(spark, survey, version, study).there()).isEqualTo(2);
      Song first = study.song("First");
      assertThat(first.artist()).contains("The Two");
      assertThat(first.year()).contains(1987);
      return study.songs("").stream()
          .map(entry -> study.reading(entry.song().id()))
          .collect(
              java.util.stream.Collectors.toMap(
                  studied -> studied.song().contentHash(), studied -> studied.stored().reading()));
    }
  }

  /** The same sound through the program's own door. */
  private Map<String, Reading> studiedByTheProgram() {
    try (Study study = Study.on(folder.resolve("own.db"))) {
      Studied a = study.study(songs.resolve("a.wav"));
      Studied b = study.study(songs.resolve("b.wav"));
      assertThat(a.stored().reading().find(Facet.CHORDS)).isPresent();
      return Map.of(
          a.song().contentHash(), a.stored().reading(),
          b.song().contentHash(), b.stored().reading());
    }
  }
}
