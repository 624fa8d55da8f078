package undersong.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayInputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javax.sound.sampled.AudioFileFormat;
import javax.sound.sampled.AudioFormat;
import javax.sound.sampled.AudioInputStream;
import javax.sound.sampled.AudioSystem;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;
import undersong.exchange.JamsReader;
import undersong.work.Trouble;

/** The whole program through its real command line, on recordings made here. */
class MainTest {
  private static final int RATE_HZ = 22_050;

  @TempDir static Path folder;
  private static Path tone;
  private static Said studied;

  /** What a command line said and how it ended. */
  private record Said(int code, String out, String err) {}

  @BeforeAll
  static void studyOne() throws Exception {
    tone = wav("tone.wav", 220, 3);
    studied =
        run(
            "study",
            tone.toString(),
            "--title",
            "One Tone",
            "--artist",
            "The Sample Trio",
            "--year",
            "2024",
            "--out",
            folder.resolve("out").toString());
  }

  /** What stands between per cent signs is a format to who prints the help. */
  @Test
  void everyCommandHasAHelpThatCanBePrinted() {
    for (CommandLine command : new CommandLine(new Main()).getSubcommands().values()) {
      for (String line : command.getCommandSpec().usageMessage().description()) {
        assertThatCode(() -> String.format(line)).as(line).doesNotThrowAnyException();
      }
    }
  }

  @Test
  void studiesAndPrintsAReading() {
    assertThat(studied.code()).as(studied.err()).isZero();
    assertThat(studied.out()).startsWith("One Tone · The Sample Trio · 2024 · 0:03");
    assertThat(studied.err()).contains("tone.wav: hearing chords");
  }

  @Test
  void writesJamsBesideIfAsked() throws Exception {
    String jams = Files.readString(folder.resolve("out/tone.jams"));
    assertThat(new ObjectMapper().readTree(jams).at("/file_metadata/title").asText())
        .isEqualTo("One Tone");
    assertThat(JamsReader.read(jams).corrections()).isNotNull();
  }

  @Test
  void writesFindingsBesideIfAsked() throws Exception {
    String findings = Files.readString(folder.resolve("out/tone.findings.json"));
    JsonNode rows = new ObjectMapper().readTree(findings);
    assertThat(rows.isArray()).isTrue();
    rows.forEach(row -> assertThat(row.get("confidence").asDouble()).isGreaterThanOrEqualTo(0.5));
  }

  @Test
  void listsTheShelfAsTextAndAsJson() throws Exception {
    assertThat(run("shelf", "one", "sample").out()).contains("One Tone, The Sample Trio (2024)");
    assertThat(run("shelf", "no such words").out()).isEqualTo("0 songs" + System.lineSeparator());
    JsonNode list = new ObjectMapper().readTree(run("shelf", "one", "--json").out());
    assertThat(list).hasSize(1);
    assertThat(list.at("/0/title").asText()).isEqualTo("One Tone");
    assertThat(list.at("/0/durationSeconds").asDouble()).isEqualTo(3);
  }

  @ParameterizedTest
  @ValueSource(strings = {"jams", "csv", "midi", "chapters"})
  void exportsWhatIsHeard(String format) {
    Path file = folder.resolve("export/one." + format);
    Said said = run("export", "One Tone", "--as", format, "--to", file.toString());
    assertThat(said.code()).as(said.err()).isZero();
    assertThat(said.out()).contains(file.toString());
    assertThat(file).isRegularFile();
  }

  @Test
  void csvTablesStandBesideEachOther() {
    run("export", "1", "--as", "csv", "--to", folder.resolve("t/a.csv").toString());
    assertThat(folder.resolve("t").toFile().list())
        .containsExactlyInAnyOrder(
            "a.csv", "a-beats.csv", "a-sections.csv", "a-keys.csv", "a-notes.csv");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "nonsense",
        "study",
        "study --nonsense x.wav",
        "export 1 --as jams",
        "export 1 --as nonsense --to x",
        "study a/x.wav b/x.flac",
        "study a.wav b.wav --title Both",
        "study a.wav --year soon",
        "shelf --shelf jdbc:postgresql://school/shelf"
      })
  void wrongUsageEndsWithTwo(String line) {
    Said said = run(line.isEmpty() ? new String[0] : line.split(" "));
    assertThat(said.code()).as(said.err()).isEqualTo(2);
    assertThat(said.err()).isNotBlank();
    assertThat(said.out()).isEmpty();
  }

  @Test
  void twinsAreNamed() {
    assertThat(run("study", "a/x.wav", "b/x.flac").err())
        .contains("a/x.wav")
        .contains("b/x.flac")
        .contains("\"x\"");
  }

  @Test
  void aBadFileNeverStopsTheRest() throws Exception {
    Path poem = Files.writeString(folder.resolve("poem.mp3"), "no sound in here");
    Path good = wav("good.wav", 330, 2);
    Said said =
        run("study", folder.resolve("missing.wav").toString(), poem.toString(), good.toString());
    assertThat(said.code()).isEqualTo(3);
    assertThat(said.out()).startsWith("good · 0:02");
    assertThat(said.err()).contains("missing.wav").contains("poem.mp3").doesNotContain("\tat ");
    assertThat(run("shelf", "poem").out()).startsWith("0 songs");
  }

  @Test
  void aSongThatIsNotThereEndsWithFour() {
    Said said =
        run("export", "Nobody's Song", "--as", "jams", "--to", folder.resolve("x").toString());
    assertThat(said.code()).isEqualTo(4);
    assertThat(said.err()).contains("\"Nobody's Song\"").contains("shelf");
    assertThat(folder.resolve("x")).doesNotExist();
  }

  @Test
  void aMistakeInTheProgramEndsWithFiveAndItsStack() {
    StringWriter err = new StringWriter();
    assertThat(Failures.report(new IllegalStateException("oh"), new PrintWriter(err, true)))
        .isEqualTo(5);
    assertThat(err.toString()).contains("mistake in the program").contains("oh").contains("\tat ");
    assertThat(Failures.report(new Trouble.Cancelled(), new PrintWriter(err))).isEqualTo(5);
  }

  @Test
  void everyCommandExplainsItself() {
    for (String command : List.of("", "demo ", "study ", "shelf ", "export ")) {
      Said said = run((command + "--help").split(" "));
      assertThat(said.code()).isZero();
      assertThat(said.out()).contains("Usage: undersong " + command.strip());
    }
    assertThat(run("--help").out()).contains("3", "a recording could not be read");
  }

  /** Every command line but those about usage gets the shelf of this test. */
  private static Said run(String... words) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    List<String> line = new java.util.ArrayList<>(List.of(words));
    if (!line.isEmpty()
        && !line.contains("--help")
        && !line.contains("--shelf")
        && !line.contains("nonsense")) {
      line.add("--shelf");
      line.add(folder.resolve("shelf.db").toString());
    }
    int code =
        Main.run(
            new PrintWriter(out, true), new PrintWriter(err, true), line.toArray(String[]::new));
    return new Said(code, out.toString(), err.toString());
  }

  private static Path wav(String name, double hertz, int seconds) throws Exception {
    byte[] samples = new byte[2 * RATE_HZ * seconds];
    for (int i = 0; i < samples.length / 2; i++) {
      int value = (int) (9000 * Math.sin(2 * Math.PI * hertz * i / RATE_HZ));
      samples[2 * i] = (byte) value;
      samples[2 * i + 1] = (byte) (value >> 8);
    }
    Path file = folder.resolve(name);
    AudioFormat format = new AudioFormat(RATE_HZ, 16, 1, true, false);
    try (AudioInputStream stream =
        new AudioInputStream(new ByteArrayInputStream(samples), format, samples.length / 2)) {
      AudioSystem.write(stream, AudioFileFormat.Type.WAVE, file.toFile());
    }
    return file;
  }
}
