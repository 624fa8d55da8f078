package undersong.bench.data;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import undersong.bench.metrics.ChordCode;
import undersong.bench.metrics.HarteChord;
import undersong.bench.metrics.KeyLabel;

/**
 * Art songs as charts, from their analyses in RomanText; copied bars are written out. A bar stands
 * in the key that holds at its first beat. Augmented sixths count as dominant sevenths on the
 * lowered 6; what has no chord here is unknown.
 *
 * <p>Source: D. Tymoczko and others, "The RomanText Format", ISMIR 2019.
 */
public final class LiederReader {
  private static final Pattern COPY =
      Pattern.compile("m(\\d+)(?:-(\\d+))?\\s*=\\s*m(\\d+)(?:-(\\d+))?.*");
  private static final Pattern BAR = Pattern.compile("m(\\d+)(?![-\\dv])\\S*\\s+(.*)");
  private static final Pattern KEY = Pattern.compile("([A-Ga-g][#b]*):");
  private static final Pattern BEAT = Pattern.compile("b(\\d+(?:\\.\\d+)?)");
  private static final Pattern METER = Pattern.compile("Time Signature:\\s*(fast |slow )?(\\S+)");

  private record Token(double beat, String text, KeyLabel key) {}

  private final TreeMap<Integer, List<Token>> bars = new TreeMap<>();
  private int beats = 4;
  private boolean compound;
  private KeyLabel key = KeyLabel.major(0);

  private LiederReader() {}

  public static Harvest<NumeralSong> readAll(Path folder) throws IOException {
    List<Path> paths;
    try (Stream<Path> all = Files.walk(folder)) {
      paths = all.filter(p -> p.endsWith("analysis.txt")).sorted().toList();
    }
    return Harvest.of(
        paths,
        p ->
            new LiederReader()
                .read("lied-%03d".formatted(paths.indexOf(p) + 1), Files.readAllLines(p)));
  }

  private NumeralSong read(String id, List<String> lines) {
    for (String line : lines) {
      line(line.strip());
    }
    if (bars.isEmpty()) {
      throw new Harvest.Unreadable("holds no numerals");
    }
    List<Chart.Bar> written = new ArrayList<>();
    List<NumeralSong.Numeral> numerals = new ArrayList<>();
    int first = bars.firstKey();
    Token last = bars.firstEntry().getValue().get(0);
    for (int number = first; number <= bars.lastKey(); number++) {
      List<Token> tokens = new ArrayList<>(bars.getOrDefault(number, List.of()));
      tokens.removeIf(token -> token.beat() >= beats);
      if (tokens.isEmpty() || tokens.get(0).beat() > 0) {
        tokens.add(0, new Token(0, last.text(), last.key()));
      }
      List<Chart.Change> changes = new ArrayList<>();
      for (Token token : tokens) {
        double start = (double) (number - first) * beats + token.beat();
        numerals.add(new NumeralSong.Numeral(start, start, token.text(), token.key()));
        changes.removeIf(change -> change.beat() == token.beat());
        changes.add(new Chart.Change(token.beat(), chord(token)));
      }
      changes.sort(Comparator.comparingDouble(Chart.Change::beat));
      written.add(
          new Chart.Bar(beats, compound, tokens.get(0).key(), changes, "A", "", written.isEmpty()));
      last = tokens.get(tokens.size() - 1);
    }
    return new NumeralSong(
        new Chart(id, written, List.of(), List.of()),
        ended(numerals, written.size() * beats),
        false);
  }

  private static List<NumeralSong.Numeral> ended(List<NumeralSong.Numeral> numerals, double end) {
    List<NumeralSong.Numeral> ended = new ArrayList<>();
    for (int i = 0; i < numerals.size(); i++) {
      NumeralSong.Numeral numeral = numerals.get(i);
      double next = i + 1 < numerals.size() ? numerals.get(i + 1).startBeat() : end;
      if (next > numeral.startBeat()) {
        ended.add(
            new NumeralSong.Numeral(numeral.startBeat(), next, numeral.text(), numeral.key()));
      }
    }
    return ended;
  }

  private void line(String line) {
    Matcher meter = METER.matcher(line);
    if (meter.matches() && bars.isEmpty()) {
      meter(Optional.ofNullable(meter.group(1)).orElse(""), meter.group(2));
      return;
    }
    Matcher copy = COPY.matcher(line);
    if (copy.matches()) {
      int to = Integer.parseInt(copy.group(1));
      int until = copy.group(2) == null ? to : Integer.parseInt(copy.group(2));
      int from = Integer.parseInt(copy.group(3));
      for (int i = 0; i <= until - to; i++) {
        if (bars.containsKey(from + i)) {
          bars.put(to + i, bars.get(from + i));
        }
      }
      return;
    }
    Matcher bar = BAR.matcher(line);
    if (bar.matches()) {
      tokens(Integer.parseInt(bar.group(1)), bar.group(2));
    }
  }

  private void meter(String pace, String text) {
    String[] numbers = text.equals("C") ? new String[] {"4", "4"} : text.split("/", -1);
    int upper = Integer.parseInt(numbers[0]);
    compound = numbers[1].equals("8") && upper % 3 == 0 && !pace.equals("slow ");
    beats = compound ? upper / 3 : upper;
  }

  private void tokens(int number, String text) {
    double beat = 0;
    for (String token : text.split("\\s+", -1)) {
      Matcher keyed = KEY.matcher(token);
      Matcher placed = BEAT.matcher(token);
      if (keyed.matches()) {
        int tonic =
            HarteChord.pitchClass(
                Character.toUpperCase(token.charAt(0)) + keyed.group(1).substring(1));
        key =
            Character.isLowerCase(token.charAt(0)) ? KeyLabel.minor(tonic) : KeyLabel.major(tonic);
      } else if (placed.matches()) {
        beat = Double.parseDouble(placed.group(1)) - 1;
      } else if (token.matches("[#b]*(Cad|It|Ger|Fr|[IViv]).*")) {
        bars.computeIfAbsent(number, n -> new ArrayList<>()).add(new Token(beat, token, key));
      }
    }
  }

  private static ChordCode chord(Token token) {
    try {
      return RockNumeral.read(
          againstMajor(token.text(), token.key().mode().equals("minor")), token.key().tonic());
    } catch (Harvest.Unreadable withoutChord) {
      return ChordCode.UNKNOWN;
    }
  }

  /** In the rock corpus's writing, where every degree is counted against the major scale. */
  static String againstMajor(String text, boolean minor) {
    StringBuilder all = new StringBuilder();
    for (String part : text.split("/", -1)) {
      String plain =
          part.replaceAll("\\[.*\\]", "")
              .replaceAll("^Cad64", minor ? "i64" : "I64")
              .replaceAll("^(Ger|It|Fr).*", "bVId7")
              .replaceAll("^([#b]*[iv]+)o(7|65|43|42)$", "$1x$2")
              .replace("ø", "h")
              .replaceAll("^(V)2$", "$142")
              .replaceAll("\\+", "a");
      boolean ofNaturalMinor = minor && plain.matches("(III|VI|VII)(?![IViv]).*");
      all.append(all.isEmpty() ? "" : "/").append(ofNaturalMinor ? "b" : "").append(plain);
    }
    return all.toString();
  }
}
