package undersong.theory;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/** Tables outside the project, found through UNDERSONG_DATA; tests are skipped without it. */
public final class TheoryTables {
  private TheoryTables() {}

  public static Path folder(String name) {
    String data = System.getenv("UNDERSONG_DATA");
    assumeTrue(
        data != null, "UNDERSONG_DATA is not set: the check against " + name + " is left out");
    return Path.of(data, name);
  }

  /** Rows of a tab-separated table by column name. */
  public static List<Map<String, String>> rows(String table) {
    List<String> lines;
    try {
      lines = Files.readAllLines(folder("theory").resolve(table));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    List<String> names = List.of(lines.get(0).split("\t", -1));
    return lines.stream()
        .skip(1)
        .map(line -> line.split("\t", -1))
        .map(
            cells -> {
              Map<String, String> row = new LinkedHashMap<>();
              IntStream.range(0, cells.length).forEach(i -> row.put(names.get(i), cells[i]));
              return row;
            })
        .toList();
  }

  /** "0 4 14" as 0, 2, 4. */
  public static Set<Integer> pitchClasses(String text) {
    return Stream.of(text.split(" "))
        .map(number -> Integer.parseInt(number) % 12)
        .collect(Collectors.toCollection(TreeSet::new));
  }

  public static Set<Integer> pitchClasses(int bits) {
    return IntStream.range(0, 12)
        .filter(pitchClass -> (bits & 1 << pitchClass) != 0)
        .boxed()
        .collect(Collectors.toCollection(TreeSet::new));
  }
}
