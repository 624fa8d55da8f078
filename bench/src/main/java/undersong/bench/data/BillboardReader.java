package undersong.bench.data;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import undersong.bench.metrics.ChordCode;
import undersong.bench.metrics.HarteChord;
import undersong.bench.metrics.KeyLabel;

/**
 * Charts of the McGill Billboard annotations. The mode of a key is not annotated: it is read off
 * the tonic's chord, and stays major where none stands.
 *
 * <p>Source: J. A. Burgoyne, J. Wild, I. Fujinaga, ISMIR 2011; format as its README describes it.
 */
public final class BillboardReader {
  private static final Pattern HEADER = Pattern.compile("# (metre|tonic|mode): (.+)");
  private static final Pattern REPEAT = Pattern.compile("\\bx(\\d+)\\b");
  private static final Pattern METER = Pattern.compile("\\((\\d+)/(\\d+)\\)");

  private int upper = 4;
  private int lower = 4;
  private int tonic;
  private Optional<String> mode = Optional.empty();
  private String letter = "A";
  private String name = "";
  private boolean opens = true;
  private ChordCode last = ChordCode.NONE;
  private final List<Chart.Bar> bars = new ArrayList<>();

  private BillboardReader() {}

  /** All charts, in order of file name. */
  public static Harvest<Chart> readAll(Path folder) {
    return Harvest.of(Harvest.list(folder.resolve("annotations")), BillboardReader::read);
  }

  private static Chart read(Path path) throws IOException {
    String number = path.getFileName().toString().replace(".txt", "");
    return read("billboard-" + number, Files.readAllLines(path));
  }

  /**
   * A chart in the same format, in which a line {@code # mode: dorian} may state the mode and
   * others the tune ({@link StatedTune}).
   */
  public static Chart read(String id, List<String> lines) {
    BillboardReader reader = new BillboardReader();
    lines.forEach(reader::line);
    if (reader.bars.isEmpty()) {
      throw new Harvest.Unreadable("holds no bars");
    }
    List<Chart.Bar> bars =
        reader.mode.isPresent() ? reader.bars : Modes.fromTonicChords(reader.bars);
    return StatedTune.over(new Chart(id, bars, List.of(), List.of()), lines);
  }

  private void line(String line) {
    Matcher header = HEADER.matcher(line);
    if (header.find()) {
      String stated = header.group(2).strip();
      if (header.group(1).equals("tonic")) {
        tonic = HarteChord.pitchClass(stated);
      } else if (header.group(1).equals("mode")) {
        mode = Optional.of(stated);
      } else {
        String[] meter = stated.split("/");
        upper = Integer.parseInt(meter[0]);
        lower = Integer.parseInt(meter[1]);
      }
      return;
    }
    int tab = line.indexOf('\t');
    if (tab < 0) {
      return;
    }
    String text = line.substring(tab + 1);
    int first = text.indexOf('|');
    int end = text.lastIndexOf('|');
    labels(first < 0 ? "" : text.substring(0, first));
    if (first < 0 || end == first) {
      return;
    }
    Matcher repeated = REPEAT.matcher(text.substring(end));
    int times = repeated.find() ? Integer.parseInt(repeated.group(1)) : 1;
    for (int i = 0; i < times; i++) {
      for (String bar : text.substring(first + 1, end).split("\\|")) {
        bar(bar.strip());
      }
    }
  }

  private void labels(String text) {
    String[] labels = text.split(",");
    if (!labels[0].isBlank() && labels[0].strip().matches("[A-Z]'*")) {
      letter = labels[0].strip();
      name = labels.length > 1 ? labels[1].strip() : "";
      opens = true;
    }
  }

  private void bar(String text) {
    int barUpper = upper;
    int barLower = lower;
    List<ChordCode> tokens = new ArrayList<>();
    for (String token : text.split("\\s+")) {
      Matcher meter = METER.matcher(token);
      if (meter.matches()) {
        barUpper = Integer.parseInt(meter.group(1));
        barLower = Integer.parseInt(meter.group(2));
      } else if (token.equals(".")) {
        tokens.add(last);
      } else if (!token.isEmpty() && !token.startsWith("&") && !token.equals("*")) {
        last = chord(token);
        tokens.add(last);
      }
    }
    if (tokens.isEmpty()) {
      tokens.add(last);
    }
    boolean compound = barLower == 8 && barUpper % 3 == 0;
    int beats = compound ? barUpper / 3 : barUpper;
    if (barLower == 8 && !compound) {
      throw new Harvest.Unreadable("bar in %d/8 has no even beat".formatted(barUpper));
    }
    bars.add(
        new Chart.Bar(
            beats,
            compound,
            new KeyLabel(tonic, mode.orElse("major")),
            Chart.spread(beats, tokens),
            letter,
            name,
            opens));
    opens = false;
  }

  private static ChordCode chord(String token) {
    try {
      return HarteChord.parse(token);
    } catch (IllegalArgumentException notALabel) {
      throw new Harvest.Unreadable(notALabel.getMessage());
    }
  }
}
