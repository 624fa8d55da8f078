package undersong.bench.data;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import undersong.bench.metrics.PitchCurve;
import undersong.bench.metrics.SungNote;

/**
 * Solo singing with hand-corrected pitch: vocadito, and the choir with a close microphone on each
 * singer.
 *
 * <p>Sources: R. Bittner and others, "vocadito", 2021; S. Rosenzweig and others, "Dagstuhl
 * ChoirSet", TISMIR 2020.
 */
public final class SoloVoiceReader {
  private SoloVoiceReader() {}

  /**
   * @param notes by each annotator; empty where none are given
   */
  public record Solo(String id, Path audio, PitchCurve pitch, List<List<SungNote>> notes) {}

  public static Harvest<Solo> readVocadito(Path folder) {
    return Harvest.of(
        List.of(folder.resolve("vocadito_1.wav")),
        audio ->
            new Solo(
                "vocadito-1",
                audio,
                curve(folder.resolve("vocadito_1_f0.csv")),
                List.of(
                    notes(folder.resolve("vocadito_1_notesA1.csv")),
                    notes(folder.resolve("vocadito_1_notesA2.csv")))));
  }

  /** Each singer's throat microphone, with the pitch curve drawn by hand. */
  public static Harvest<Solo> readChoir(Path folder) {
    List<Path> curves = Harvest.list(folder.resolve("annotations_csv_F0_manual"));
    return Harvest.of(
        curves,
        path -> {
          String name = path.getFileName().toString().replace(".csv", "");
          Path audio = folder.resolve("audio_wav_22050_mono").resolve(name + ".wav");
          if (!Files.exists(audio)) {
            throw new Harvest.Unreadable("has no recording beside it");
          }
          return new Solo(
              "choir-" + name.replaceAll(".*Take04_", "").toLowerCase(java.util.Locale.ROOT),
              audio,
              curve(path),
              List.of());
        });
  }

  private static PitchCurve curve(Path path) throws IOException {
    List<double[]> rows = rows(path);
    return new PitchCurve(
        rows.stream().mapToDouble(r -> r[0]).toArray(),
        rows.stream().mapToDouble(r -> r[1]).toArray());
  }

  private static List<SungNote> notes(Path path) throws IOException {
    return rows(path).stream()
        .map(r -> new SungNote(r[0], r[0] + r[2], 69 + 12 * Math.log(r[1] / 440) / Math.log(2)))
        .toList();
  }

  private static List<double[]> rows(Path path) throws IOException {
    return Files.readAllLines(path).stream()
        .filter(l -> !l.isBlank())
        .map(l -> java.util.Arrays.stream(l.split(",")).mapToDouble(Double::parseDouble).toArray())
        .toList();
  }
}
