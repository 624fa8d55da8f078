package undersong.study;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.shelf.Origin;
import undersong.trend.Counted;
import undersong.trend.Trend.Grouping;

/**
 * Search and counting against a count of the raw files, which knows nothing of this program's
 * charts, keys and readings: RS200 (T. de Clercq, D. Temperley, "A corpus analysis of rock
 * harmony", Popular Music 30(1), 2011), expanded form, the analyses the program loads.
 */
class OpenChartsSearchTest {
  private static final Pattern PLAIN = Pattern.compile("([b#]*[IViv]+).*");

  /** Chords of another key on their own degree; others do not occur in what is asked below. */
  private static final Map<String, String> APPLIED =
      Map.of(
          "V/V", "II", "V/IV", "I", "IV/IV", "bVII", "V/vi", "III", "V/ii", "VI", "V/iii", "VII");

  @TempDir private static Path folder;
  private static Study study;
  private static Path files;

  @BeforeAll
  static void load() throws IOException {
    String data = System.getenv("UNDERSONG_DATA");
    assumeTrue(data != null, "UNDERSONG_DATA is not set: search was not held against open charts");
    Path corpus = Path.of(data, "rock-corpus-rs200");
    assumeTrue(Files.isDirectory(corpus), "RS200 is not there: search was not held against it");
    files = corpus.resolve("rs200_harmony_exp");
    Path only = Files.createDirectories(folder.resolve("data"));
    Path link = Files.createSymbolicLink(only.resolve("rock-corpus-rs200"), corpus);
    study = Study.on(folder.resolve("shelf.db"));
    assertThat(study.withoutSound().loadCharts(only).added()).isGreaterThan(80);
    Files.delete(link);
  }

  @AfterAll
  static void close() {
    if (study != null) {
      study.close();
    }
  }

  /** Everything that surely has it is found, and nothing that cannot have it. */
  @ParameterizedTest
  @ValueSource(strings = {"I IV V", "I bVII IV", "vi IV I V", "ii V I", "I vi IV V", "IV iv I"})
  void knownProgressionsAreFoundWhereTheFilesHoldThem(String progression) throws IOException {
    List<String> row = List.of(progression.split(" ", -1));
    Set<String> surely = new TreeSet<>();
    Set<String> perhaps = new TreeSet<>();
    Set<String> inOneKey = new TreeSet<>();
    for (Map.Entry<String, String> song : loaded().entrySet()) {
      List<String> written = written(song.getValue());
      if (holds(once(written).stream().map(OpenChartsSearchTest::third).toList(), row)) {
        surely.add(song.getKey());
      }
      if (holds(once(written.stream().map(OpenChartsSearchTest::third).toList()), row)) {
        perhaps.add(song.getKey());
      }
      for (String key : song.getValue().split("\\[[A-G][#b]?\\]", -1)) {
        if (holds(once(written(key).stream().map(OpenChartsSearchTest::plain).toList()), row)) {
          inOneKey.add(song.getKey());
        }
      }
    }
    assertThat(surely).as("songs to be found").isNotEmpty();
    Set<String> found =
        study.search().find("chords " + progression, Set.of(Origin.CHART)).stream()
            .map(hit -> hit.entry().song().contentHash())
            .collect(Collectors.toCollection(TreeSet::new));
    assertThat(found).as("recall").containsAll(surely);
    assertThat(perhaps).as("precision").containsAll(found);
    assertThat(
            study
                .trends()
                .of(Counted.progression(progression), Grouping.ORIGIN, Set.of(Origin.CHART), "")
                .all()
                .songs())
        .as("counted")
        .isEqualTo(inOneKey.size());
  }

  /** The line of music of each file whose song is on the shelf. */
  private static Map<String, String> loaded() throws IOException {
    Set<String> there =
        study.songs("", Set.of(Origin.CHART)).stream()
            .map(entry -> entry.song().contentHash())
            .collect(Collectors.toSet());
    try (Stream<Path> all = Files.list(files)) {
      return all.filter(file -> there.contains(identity(file)))
          .collect(Collectors.toMap(OpenChartsSearchTest::identity, OpenChartsSearchTest::music));
    }
  }

  private static String identity(Path file) {
    return "chart:rs200-" + file.getFileName().toString().replace("_dt.txt", "");
  }

  private static String music(Path file) {
    try (Stream<String> lines = Files.lines(file)) {
      return lines
          .filter(line -> line.contains("|") && !line.startsWith("Warning"))
          .findFirst()
          .orElse("");
    } catch (IOException broken) {
      throw new java.io.UncheckedIOException(broken);
    }
  }

  private static List<String> written(String music) {
    return Stream.of(music.replaceAll("\\[[^]]*\\]|\\|", " ").trim().split("\\s+", -1))
        .filter(word -> !word.isEmpty() && !word.equals(".") && !word.equals("R"))
        .toList();
  }

  private static List<String> once(List<String> chords) {
    List<String> row = new ArrayList<>();
    for (String chord : chords) {
      if (row.isEmpty() || !row.get(row.size() - 1).equals(chord)) {
        row.add(chord);
      }
    }
    return row;
  }

  /** Degree and case, which is what a search for a plain numeral asks of a chord. */
  private static String third(String chord) {
    return degree(chord, "");
  }

  /** The same, but diminished and augmented triads are others than minor and major ones. */
  private static String plain(String chord) {
    return degree(chord, chord.replaceAll("[b#]*[IViv]+([ohxa+]?).*", "$1"));
  }

  /** Chords without third stay as they are written, and fit nothing that is asked. */
  private static String degree(String chord, String sign) {
    String[] parts = chord.split("/", -1);
    Matcher first = PLAIN.matcher(parts[0]);
    if (!first.matches() || parts[0].matches("[b#]*[IViv]+(s[24].*|.*s4|5)")) {
      return chord;
    }
    String degree = first.group(1);
    return (parts.length == 1 ? degree : APPLIED.getOrDefault(degree + "/" + parts[1], chord))
        + sign;
  }

  private static boolean holds(List<String> chords, List<String> row) {
    for (int at = 0; at + row.size() <= chords.size(); at++) {
      if (chords.subList(at, at + row.size()).equals(row)) {
        return true;
      }
    }
    return false;
  }
}
