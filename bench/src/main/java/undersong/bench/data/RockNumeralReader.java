package undersong.bench.data;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import undersong.bench.data.RockCorpusReader.Annotator;

/**
 * The rock corpus with its numerals as written and the named parts of its songs as sections.
 *
 * <p>Source: as {@link RockCorpusReader}; parts from the unexpanded form.
 */
public final class RockNumeralReader {
  private static final Pattern TOKEN =
      Pattern.compile("\\[([^\\]]*)\\]|(\\|)|\\*(\\d+)|\\$([A-Za-z0-9]+)|([^\\s|\\[\\]*$]+)");

  private static final Pattern ROUNDS = Pattern.compile("\\$([A-Za-z0-9]+)\\*(\\d+)");

  private RockNumeralReader() {}

  /** Songs in order, as D. Temperley analyzed them. */
  public static List<NumeralSong> readAll(Path folder) throws IOException {
    List<String> names = RockCorpusReader.songs(folder);
    List<NumeralSong> songs = new ArrayList<>();
    for (Chart chart : RockCorpusReader.readAll(folder, Annotator.TEMPERLEY).read()) {
      String name = names.get(Integer.parseInt(chart.id().substring(6)) - 1);
      String expanded = Files.readString(folder.resolve("rs200_harmony_exp/" + name + "_dt.txt"));
      Map<String, String> parts =
          parts(Files.readAllLines(folder.resolve("rs200_harmony/" + name + "_dt.har")));
      Chart divided = divide(chart, parts);
      songs.add(new NumeralSong(divided, numerals(divided, expanded), goesRound(parts)));
    }
    return songs;
  }

  private static List<NumeralSong.Numeral> numerals(Chart chart, String expanded) {
    int[] starts = chart.barStarts();
    List<String> texts = new ArrayList<>();
    List<Double> beats = new ArrayList<>();
    List<String> inBar = new ArrayList<>();
    int bar = 0;
    Matcher token = TOKEN.matcher(expanded);
    while (token.find() && bar < chart.bars().size()) {
      if (token.group(5) != null) {
        inBar.add(token.group(5));
      } else if (token.group(2) != null) {
        for (int i = 0; i < inBar.size(); i++) {
          if (!inBar.get(i).equals(".")) {
            texts.add(inBar.get(i));
            beats.add(starts[bar] + (double) chart.bars().get(bar).beats() * i / inBar.size());
          }
        }
        inBar.clear();
        bar++;
      }
    }
    List<NumeralSong.Numeral> numerals = new ArrayList<>();
    for (int i = 0; i < texts.size(); i++) {
      double start = beats.get(i);
      double end = i + 1 < texts.size() ? beats.get(i + 1) : starts[starts.length - 1];
      int at = java.util.Arrays.binarySearch(starts, (int) Math.floor(start));
      numerals.add(
          new NumeralSong.Numeral(
              start, end, texts.get(i), chart.bars().get(at >= 0 ? at : -at - 2).key()));
    }
    return numerals;
  }

  private static Map<String, String> parts(List<String> lines) {
    Map<String, String> parts = new HashMap<>();
    for (String line : lines) {
      String text = line.replaceAll("%.*", "").strip();
      int colon = text.indexOf(':');
      if (colon > 0) {
        parts.put(text.substring(0, colon).strip(), text.substring(colon + 1));
      }
    }
    return parts;
  }

  private static boolean goesRound(Map<String, String> parts) {
    for (String text : parts.values()) {
      Matcher repeated = ROUNDS.matcher(text);
      while (repeated.find()) {
        List<String> chords = new ArrayList<>();
        chords(parts.getOrDefault(repeated.group(1), ""), parts, chords);
        boolean goes = Integer.parseInt(repeated.group(2)) >= 3;
        if (goes && chords.size() >= 2 && chords.size() <= 8 && Set.copyOf(chords).size() >= 2) {
          return true;
        }
      }
    }
    return false;
  }

  /** The numerals of a part in order, repeats of parts within it not played out. */
  private static void chords(String text, Map<String, String> parts, List<String> chords) {
    Matcher token = TOKEN.matcher(text);
    while (token.find()) {
      if (token.group(4) != null) {
        chords(parts.getOrDefault(token.group(4), ""), parts, chords);
      } else if (token.group(5) != null && !token.group(5).equals(".")) {
        chords.add(token.group(5));
      }
    }
  }

  /** Names the sections by the parts of the unexpanded form, where their bars add up. */
  private static Chart divide(Chart chart, Map<String, String> parts) {
    Map<Integer, String> opens = new HashMap<>();
    int bars = walk(parts.getOrDefault("S", ""), parts, opens);
    if (bars != chart.bars().size()) {
      return chart;
    }
    List<Chart.Bar> named = new ArrayList<>();
    String name = "X";
    for (int i = 0; i < bars; i++) {
      Chart.Bar bar = chart.bars().get(i);
      name = opens.getOrDefault(i, name);
      named.add(
          new Chart.Bar(
              bar.beats(),
              bar.compound(),
              bar.key(),
              bar.changes(),
              name,
              section(name),
              i == 0 || opens.containsKey(i)));
    }
    return new Chart(chart.id(), named, chart.tune(), chart.second());
  }

  /** Counts the bars of a part; the parts named on the top level open sections. */
  private static int walk(String text, Map<String, String> parts, Map<Integer, String> opens) {
    int bars = 0;
    int lastItem = 0;
    String lastPart = "";
    Matcher token = TOKEN.matcher(text);
    while (token.find()) {
      if (token.group(2) != null) {
        lastItem = 1;
        lastPart = "";
        bars++;
      } else if (token.group(4) != null) {
        lastPart = letter(token.group(4));
        lastItem = walk(parts.getOrDefault(token.group(4), ""), parts, new HashMap<>());
        opens.put(bars, lastPart);
        bars += lastItem;
      } else if (token.group(3) != null) {
        for (int i = 1; i < Integer.parseInt(token.group(3)); i++) {
          if (!lastPart.isEmpty()) {
            opens.put(bars, lastPart);
          }
          bars += lastItem;
        }
      } else if (token.group(5) != null && !lastPart.isEmpty()) {
        opens.putIfAbsent(bars, "X");
      }
    }
    return bars;
  }

  private static String letter(String part) {
    String plain = part.replaceAll("\\d+$", "");
    return plain.isEmpty() ? part : plain;
  }

  private static String section(String part) {
    return switch (part) {
      case "In" -> "intro";
      case "Vr" -> "verse";
      case "Ch", "Rf" -> "chorus";
      case "Br" -> "bridge";
      case "So" -> "solo";
      case "Ou", "Co", "Fadeout" -> "outro";
      default -> "";
    };
  }
}
