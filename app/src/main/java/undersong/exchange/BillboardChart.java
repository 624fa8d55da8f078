package undersong.exchange;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import undersong.theory.ChordSymbol;
import undersong.theory.HarteSyntax;
import undersong.theory.NoteName;

/**
 * A chart as the McGill Billboard annotations write it: a phrase a line, bars between strokes,
 * Harte's chord labels.
 *
 * <p>Source: J. A. Burgoyne, J. Wild, I. Fujinaga, "An Expert Ground Truth Set for Audio Chord
 * Recognition and Music Analysis", ISMIR 2011; format as its README describes it.
 */
final class BillboardChart {
  private static final String SOURCE =
      "McGill Billboard annotations 2.0 (J. A. Burgoyne, J. Wild, I. Fujinaga, ISMIR 2011), CC0";
  private static final Pattern HEADER = Pattern.compile("# (title|artist|metre|tonic): (.*)");
  private static final Pattern REPEAT = Pattern.compile("\\bx(\\d+)\\b");
  private static final Pattern METER = Pattern.compile("\\(?(\\d+)/(\\d+)\\)?");

  private final PaperBars bars = new PaperBars();
  private String title = "";
  private String artist = "";
  private int upper = 4;
  private int lower = 4;
  private String letter = "A";
  private String name = "";
  private boolean opens = true;
  private ChordSymbol last = ChordSymbol.NONE;

  private BillboardChart() {}

  static PaperSong read(Path file) throws IOException {
    BillboardChart chart = new BillboardChart();
    for (String line : Files.readAllLines(file)) {
      chart.line(line);
    }
    String number = file.getFileName().toString().replace(".txt", "");
    return new PaperSong(
        "billboard-" + number, chart.title, chart.artist, SOURCE, chart.bars.chart());
  }

  private void line(String line) {
    Matcher header = HEADER.matcher(line);
    if (header.matches()) {
      String stated = header.group(2).strip();
      switch (header.group(1)) {
        case "title" -> title = stated;
        case "artist" -> artist = stated;
        case "tonic" -> bars.tonic(NoteName.parse(stated));
        default -> meter(stated);
      }
      return;
    }
    int tab = line.indexOf('\t');
    String text = tab < 0 ? "" : line.substring(tab + 1);
    int first = text.indexOf('|');
    int end = text.lastIndexOf('|');
    labels(first < 0 ? text : text.substring(0, first));
    if (end <= first) {
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

  private void meter(String stated) {
    Matcher meter = METER.matcher(stated);
    if (!meter.matches()) {
      throw new IllegalArgumentException("metre \"%s\" is none".formatted(stated));
    }
    upper = Integer.parseInt(meter.group(1));
    lower = Integer.parseInt(meter.group(2));
  }

  private void labels(String text) {
    String[] labels = text.split(",");
    if (labels[0].strip().matches("[A-Z]'*")) {
      letter = labels[0].strip().replace("'", "");
      name = labels.length > 1 ? labels[1].strip() : "";
      opens = true;
    }
  }

  private void bar(String text) {
    int over = upper;
    int under = lower;
    List<ChordSymbol> chords = new ArrayList<>();
    for (String token : text.split("\\s+")) {
      Matcher meter = METER.matcher(token);
      if (meter.matches()) {
        over = Integer.parseInt(meter.group(1));
        under = Integer.parseInt(meter.group(2));
      } else if (token.equals(".")) {
        chords.add(last);
      } else if (!token.isEmpty() && !token.startsWith("&") && !token.equals("*")) {
        last = HarteSyntax.parse(token);
        chords.add(last);
      }
    }
    bars.bar(over, under, chords.isEmpty() ? List.of(last) : chords, letter, name, opens);
    opens = false;
  }
}
