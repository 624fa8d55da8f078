package undersong.bench.data;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import undersong.bench.metrics.ChordCode;
import undersong.bench.metrics.HarteChord;
import undersong.bench.metrics.KeyLabel;

/**
 * Charts of the rock corpus RS200, by either annotator, with bar-line times of the recordings and
 * the transcribed tune. Songs are numbered by their place in the order of file names.
 *
 * <p>Source: T. de Clercq, D. Temperley, Popular Music 30(1), 2011; the expanded form of each
 * analysis is read.
 */
public final class RockCorpusReader {
  private static final Pattern TOKEN =
      Pattern.compile("\\[([^\\]]*)\\]|(\\|)|([^\\s|\\[\\]*]+)|\\*(\\d+)");

  private RockCorpusReader() {}

  /** The two authors. */
  public enum Annotator {
    TEMPERLEY("dt"),
    DE_CLERCQ("tdc");

    private final String suffix;

    Annotator(String suffix) {
      this.suffix = suffix;
    }
  }

  /** Song file names without endings, in order: a song's number is its place here, from 1. */
  public static List<String> songs(Path folder) {
    return Harvest.list(folder.resolve("rs200_harmony_exp")).stream()
        .map(p -> p.getFileName().toString())
        .filter(n -> n.endsWith("_dt.txt"))
        .map(n -> n.substring(0, n.length() - "_dt.txt".length()))
        .toList();
  }

  public static Harvest<Chart> readAll(Path folder, Annotator annotator) {
    List<String> songs = songs(folder);
    List<Path> paths =
        songs.stream()
            .map(s -> folder.resolve("rs200_harmony_exp/%s_%s.txt".formatted(s, annotator.suffix)))
            .toList();
    Harvest<Chart> harvest =
        Harvest.of(paths, p -> readHarmony(p, "rs200-%03d".formatted(paths.indexOf(p) + 1)));
    List<String> numbered = harvest.refused().stream().map(r -> number(songs, r)).toList();
    return new Harvest<>(harvest.read(), numbered);
  }

  private static String number(List<String> songs, String refusal) {
    int colon = refusal.indexOf(": ");
    String name = refusal.substring(0, colon).replaceAll("_(dt|tdc)\\.txt$", "");
    return "rs200-%03d%s".formatted(songs.indexOf(name) + 1, refusal.substring(colon));
  }

  private static Chart readHarmony(Path path, String id) throws IOException {
    String expanded =
        Files.readAllLines(path).stream().filter(l -> !l.isBlank()).findFirst().orElse("");
    List<Chart.Bar> bars = new ArrayList<>();
    List<ChordCode> tokens = new ArrayList<>();
    int upper = 4;
    int lower = 4;
    int tonic = 0;
    ChordCode last = ChordCode.NONE;
    Matcher token = TOKEN.matcher(expanded);
    while (token.find()) {
      String tag = token.group(1);
      if (tag != null) {
        if (tag.matches("\\d+/\\d+")) {
          String[] meter = tag.split("/");
          upper = Integer.parseInt(meter[0]);
          lower = Integer.parseInt(meter[1]);
        } else if (tag.matches("[A-G][#b]?")) {
          tonic = HarteChord.pitchClass(tag);
        }
      } else if (token.group(2) != null) {
        boolean compound = lower == 8 && upper % 3 == 0;
        if (lower == 8 && !compound) {
          throw new Harvest.Unreadable("bar in %d/8 has no even beat".formatted(upper));
        }
        int beats = compound ? upper / 3 : upper;
        List<Chart.Change> changes = Chart.spread(beats, tokens.isEmpty() ? List.of(last) : tokens);
        bars.add(
            new Chart.Bar(
                beats, compound, KeyLabel.major(tonic), changes, "A", "", bars.isEmpty()));
        tokens.clear();
      } else if (token.group(3) != null) {
        last =
            switch (token.group(3)) {
              case "." -> last;
              case "R" -> ChordCode.NONE;
              default -> RockNumeral.read(token.group(3), tonic);
            };
        tokens.add(last);
      }
    }
    if (bars.isEmpty()) {
      throw new Harvest.Unreadable("holds no bars");
    }
    return new Chart(id, Modes.fromTonicChords(bars), List.of(), List.of());
  }

  /** Seconds at which the bars of a song begin on the recording that was analyzed. */
  public static double[] barSeconds(Path folder, String song) throws IOException {
    Path path = folder.resolve("timing_data/%s.tim".formatted(song));
    return Files.readAllLines(path).stream()
        .map(l -> l.strip().split("\\s+"))
        .filter(c -> c.length >= 2)
        .mapToDouble(c -> Double.parseDouble(c[0]))
        .toArray();
  }

  /**
   * The transcribed tune: for each bar the onsets, as share of the bar and MIDI pitch. The octave
   * of a scale degree is the one nearest to the note before, or as {@code ^} and {@code v} say.
   */
  public static List<List<Onset>> tune(Path path) throws IOException {
    StringBuilder text = new StringBuilder();
    for (String line : Files.readAllLines(path)) {
      text.append(line.replaceAll("%.*", "")).append(' ');
    }
    return new RockTune().read(text.toString());
  }

  /**
   * @param barShare 0 = on the bar line, below 1
   */
  public record Onset(double barShare, int midiPitch) {}
}
