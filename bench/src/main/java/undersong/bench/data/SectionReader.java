package undersong.bench.data;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import undersong.bench.metrics.Timed;

/**
 * Section annotations without audio: SALAMI by two listeners, and the Harmonix set with its beats.
 *
 * <p>Sources: J. B. L. Smith and others, ISMIR 2011; O. Nieto and others, ISMIR 2019.
 */
public final class SectionReader {
  private SectionReader() {}

  /** One song as two listeners divide it into large sections. */
  public record TwoListeners(String id, List<Timed<String>> first, List<Timed<String>> second) {}

  public static Harvest<TwoListeners> readSalami(Path folder) {
    return Harvest.of(
        Harvest.list(folder.resolve("annotations")),
        path ->
            new TwoListeners(
                "salami-" + path.getFileName(),
                largeSections(path.resolve("textfile1.txt")),
                largeSections(path.resolve("textfile2.txt"))));
  }

  /** Large sections: stretches from one capital letter to the next. */
  static List<Timed<String>> largeSections(Path path) throws IOException {
    List<Timed<String>> sections = new ArrayList<>();
    double start = Double.NaN;
    String letter = "";
    for (String line : Files.readAllLines(path)) {
      String[] columns = line.split("\t", 2);
      if (columns.length < 2) {
        continue;
      }
      double seconds = Double.parseDouble(columns[0]);
      String next = "";
      for (String label : columns[1].split(",")) {
        String name = label.strip();
        if (name.matches("[A-Z]'*|[Ss]ilence|[Ee]nd")) {
          next = name;
        }
      }
      if (!next.isEmpty()) {
        if (seconds > start) {
          sections.add(new Timed<>(start, seconds, letter));
        }
        start = seconds;
        letter = next;
      }
    }
    if (sections.isEmpty()) {
      throw new Harvest.Unreadable("holds no large sections");
    }
    return sections;
  }

  /**
   * One Harmonix song.
   *
   * @param beatNumbers place of each beat in its bar, 1 = downbeat
   */
  public record Annotated(
      String id, List<Timed<String>> sections, List<Double> beats, List<Integer> beatNumbers) {}

  public static Harvest<Annotated> readHarmonix(Path folder) {
    return Harvest.of(
        Harvest.list(folder.resolve("segments")),
        path -> {
          String file = path.getFileName().toString();
          List<String[]> beats = rows(folder.resolve("beats_and_downbeats").resolve(file));
          return new Annotated(
              "harmonix-" + file.substring(0, 4),
              labeled(rows(path)),
              beats.stream().map(r -> Double.parseDouble(r[0])).toList(),
              beats.stream().map(r -> Integer.parseInt(r[1])).toList());
        });
  }

  private static List<Timed<String>> labeled(List<String[]> rows) {
    List<Timed<String>> sections = new ArrayList<>();
    for (int i = 0; i + 1 < rows.size(); i++) {
      double start = Double.parseDouble(rows.get(i)[0]);
      double end = Double.parseDouble(rows.get(i + 1)[0]);
      if (end > start) {
        sections.add(new Timed<>(start, end, rows.get(i)[1]));
      }
    }
    return sections;
  }

  private static List<String[]> rows(Path path) throws IOException {
    return Files.readAllLines(path).stream()
        .filter(l -> !l.isBlank())
        .map(l -> l.strip().split("\\s+", 3))
        .toList();
  }
}
