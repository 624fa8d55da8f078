package undersong.bench;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a person reads who has installed nothing: one line for each thing, and the rest runs. */
class MeasureTest {
  @TempDir private Path folder;

  private String measure(List<String> options, String... sets) throws Exception {
    Files.createDirectories(folder.resolve("bench"));
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-Xmx700m", "-cp", System.getProperty("java.class.path")));
    command.addAll(options);
    command.add(Measure.class.getName());
    command.addAll(List.of(sets));
    ProcessBuilder builder =
        new ProcessBuilder(command).directory(folder.toFile()).redirectErrorStream(true);
    builder.environment().remove("UNDERSONG_DATA");
    builder.environment().remove("MEASURE_CACHE");
    builder.environment().put("PATH", folder.toString());
    Process process = builder.start();
    String printed = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor()).as(printed).isZero();
    return printed;
  }

  @Test
  void namesMissingToolsDataAndSoundfontAndGoesOn() throws Exception {
    String printed =
        measure(List.of("-Dundersong.bench.soundfonts=" + folder), "quick", "ceilings", "real");
    assertThat(printed)
        .containsOnlyOnce(
            "quick not measured: Soundfont missing: install Debian package"
                + " musescore-general-soundfont.")
        .contains("aubiotrack is missing: install Debian package aubio-tools.")
        .contains("ffmpeg is missing: install Debian package ffmpeg.")
        .contains("ceilings not measured: UNDERSONG_DATA names no folder")
        .doesNotContain("Exception");
    assertThat(page()).contains("## Set \"real\"", "UNDERSONG_DATA names no folder");
  }

  @Test
  void namesTheSynthesizersOnceForAllSongs() throws Exception {
    for (String name : List.of("sf3/MuseScore_General.sf3", "sf2/TimGM6mb.sf2")) {
      Path font = folder.resolve(name);
      Files.createDirectories(font.getParent());
      Files.write(font, new byte[] {0});
    }
    String printed = measure(List.of("-Dundersong.bench.soundfonts=" + folder), "space");
    assertThat(printed).containsOnlyOnce("fluidsynth is missing").doesNotContain("\tat undersong");
    if (!Files.isDirectory(Path.of("/usr/share/festival/voices/english/kal_diphone"))) {
      assertThat(printed).containsOnlyOnce("Festival is missing: install Debian packages");
    }
    assertThat(page()).contains("own-space-01, own-space-02").contains("fluidsynth is missing");
  }

  private String page() throws IOException {
    return Files.readString(folder.resolve("bench/RESULTS.md"));
  }
}
