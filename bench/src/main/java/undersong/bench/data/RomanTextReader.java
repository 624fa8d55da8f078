package undersong.bench.data;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * Roman-numeral analyses in RomanText: which numeral begins where, in which key.
 *
 * <p>Source: D. Tymoczko and others, "The RomanText Format", ISMIR 2019. Copies of bars ({@code
 * m5-6 = m1-2}) and variants are left out.
 */
public final class RomanTextReader {
  private static final Pattern BAR = Pattern.compile("m(\\d+)(?![-\\dv])\\S*\\s+(.*)");
  private static final Pattern KEY = Pattern.compile("([A-Ga-g][#b]*):");
  private static final Pattern BEAT = Pattern.compile("b(\\d+(?:\\.\\d+)?)");

  private RomanTextReader() {}

  public record Analysis(String id, List<Numeral> numerals) {}

  /**
   * @param key as written: capital = major, small = minor
   * @param beat from 1
   */
  public record Numeral(int bar, double beat, String key, String numeral) {}

  public static Harvest<Analysis> readAll(Path folder) throws IOException {
    List<Path> paths;
    try (Stream<Path> all = Files.walk(folder)) {
      paths = all.filter(p -> p.endsWith("analysis.txt")).sorted().toList();
    }
    return Harvest.of(paths, p -> read(p, "lied-%03d".formatted(paths.indexOf(p) + 1)));
  }

  static Analysis read(Path path, String id) throws IOException {
    List<Numeral> numerals = new ArrayList<>();
    String key = "";
    for (String line : Files.readAllLines(path)) {
      Matcher bar = BAR.matcher(line.strip());
      if (!bar.matches() || bar.group(2).startsWith("=")) {
        continue;
      }
      double beat = 1;
      for (String token : bar.group(2).split("\\s+")) {
        Matcher keyed = KEY.matcher(token);
        Matcher placed = BEAT.matcher(token);
        if (keyed.matches()) {
          key = keyed.group(1);
        } else if (placed.matches()) {
          beat = Double.parseDouble(placed.group(1));
        } else if (!token.startsWith("|") && !token.startsWith(":")) {
          numerals.add(new Numeral(Integer.parseInt(bar.group(1)), beat, key, token));
        }
      }
    }
    if (numerals.isEmpty()) {
      throw new Harvest.Unreadable("holds no numerals");
    }
    return new Analysis(id, numerals);
  }
}
