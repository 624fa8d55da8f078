package undersong.exchange;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import undersong.theory.ChordSymbol;
import undersong.theory.Key;
import undersong.theory.Mode;
import undersong.theory.NoteName;
import undersong.theory.ScaleDegree;
import undersong.theory.Spelling;

/**
 * A chart as the rock corpus RS200 writes it in expanded form: numerals against the major scale in
 * every key; {@code d7} = dominant seventh, {@code h} half-diminished, {@code x} fully diminished,
 * {@code s4} suspended, {@code /V} applied. Its form is not in this form of the file: one section.
 *
 * <p>Source: T. de Clercq, D. Temperley, "A corpus analysis of rock harmony", Popular Music 30(1),
 * 2011, and the corpus's own description. A bare 7 takes the seventh of the major scale.
 */
final class RockChart {
  private static final String SOURCE =
      "RS200 2.1 (T. de Clercq, D. Temperley, Popular Music 30(1), 2011), CC BY 4.0"
          + " (creativecommons.org/licenses/by/4.0), changed into this program's form";
  private static final Pattern TOKEN =
      Pattern.compile("\\[([^\\]]*)\\]|(\\|)|([^\\s|\\[\\]*]+)|\\*(\\d+)");
  private static final Pattern NUMERAL =
      Pattern.compile(
          "([b#]*)(VII|VI|IV|V|III|II|I|vii|vi|iv|v|iii|ii|i)([ohxad+M]?)"
              + "(s4|s2)?(b5|#5)?\\(?(13|11|9|7|65|64|6|5|43|42|4|2)?\\)?(b9|#9|s4|#11|b5)*");
  private static final List<String> STEPS = List.of("I", "II", "III", "IV", "V", "VI", "VII");

  private RockChart() {}

  /**
   * @param titled the same analysis in short form, whose first remark is the title
   */
  static PaperSong read(Path file, Path titled) throws IOException {
    String name = file.getFileName().toString().replace("_dt.txt", "");
    String title =
        Files.exists(titled)
            ? Files.readAllLines(titled).stream()
                .filter(line -> line.startsWith("%"))
                .map(line -> line.substring(1).strip())
                .findFirst()
                .orElse(name)
            : name;
    String line =
        Files.readAllLines(file).stream().filter(RockChart::isMusic).findFirst().orElse("");
    return new PaperSong("rs200-" + name, title, "", SOURCE, chart(line));
  }

  /** The program that expanded the files left warnings in some. */
  private static boolean isMusic(String line) {
    return line.contains("|") && !line.startsWith("Warning");
  }

  private static ChordChart chart(String line) {
    PaperBars bars = new PaperBars();
    NoteName tonic = new NoteName(0);
    boolean opens = true;
    ChordSymbol last = ChordSymbol.NONE;
    List<ChordSymbol> chords = new ArrayList<>();
    Matcher token = TOKEN.matcher(line);
    while (token.find()) {
      String tag = token.group(1);
      if (tag != null && tag.matches("\\d+/\\d+")) {
        String[] meter = tag.split("/", -1);
        bars.meter(Integer.parseInt(meter[0]), Integer.parseInt(meter[1]));
      } else if (tag != null && tag.matches("[A-G][#b]?")) {
        tonic = NoteName.parse(tag);
        bars.tonic(tonic);
      } else if (token.group(2) != null) {
        bars.bar(chords.isEmpty() ? List.of(last) : List.copyOf(chords), "A", "", opens);
        opens = false;
        chords.clear();
      } else if (token.group(3) != null) {
        last =
            switch (token.group(3)) {
              case "." -> last;
              case "R" -> ChordSymbol.NONE;
              default -> chord(token.group(3), tonic);
            };
        chords.add(last);
      }
    }
    return bars.chart();
  }

  static ChordSymbol chord(String text, NoteName tonic) {
    String[] applied = text.split("/", -1);
    NoteName center = tonic;
    for (int i = applied.length - 1; i >= 0; i--) {
      Matcher parts = NUMERAL.matcher(applied[i]);
      if (!parts.matches()) {
        throw new IllegalArgumentException("\"%s\" is no numeral of the corpus".formatted(text));
      }
      int altered = parts.group(1).chars().map(sign -> sign == '#' ? 1 : -1).sum();
      int step = STEPS.indexOf(parts.group(2).toUpperCase(Locale.ROOT)) + 1;
      NoteName root = new ScaleDegree(step, altered).above(center);
      if (i == 0) {
        return chord(parts, NoteName.ofPitchClass(root.pitchClass(), 0), center);
      }
      center = NoteName.ofPitchClass(root.pitchClass(), 0);
    }
    throw new AssertionError(text);
  }

  private static ChordSymbol chord(Matcher parts, NoteName root, NoteName center) {
    String kind = parts.group(3);
    boolean diminished = kind.equals("o") || kind.equals("h") || kind.equals("x");
    boolean minor = Character.isLowerCase(parts.group(2).charAt(0));
    int third = minor || diminished ? 3 : 4;
    int fifth = diminished || "b5".equals(parts.group(5)) ? 6 : kind.matches("[a+]") ? 8 : 7;
    third = "s4".equals(parts.group(4)) ? 5 : "s2".equals(parts.group(4)) ? 2 : third;
    int seventh = seventh(parts, kind, third);
    String figure = parts.group(6) == null ? "" : parts.group(6);
    Set<Integer> members = new TreeSet<>(Set.of(0, third, fifth));
    if (figure.equals("5")) {
      members.remove(third);
    } else if (Set.of("7", "9", "11", "13", "65", "43", "42", "2").contains(figure)) {
      members.add(seventh);
    }
    int bass =
        switch (figure) {
          case "6", "65" -> third;
          case "64", "43" -> fifth;
          case "42", "2" -> seventh;
          default -> 0;
        };
    ChordSymbol.Chord upright = ChordSymbol.ofSemitones(root, members, root);
    Key key = new Key(NoteName.ofPitchClass(center.pitchClass(), 0), Mode.MAJOR);
    NoteName low = Spelling.name(Math.floorMod(root.pitchClass() + bass, 12), key, upright);
    return Spelling.chord(upright.withBass(low), key);
  }

  private static int seventh(Matcher parts, String kind, int third) {
    if (kind.equals("x")) {
      return 9;
    }
    boolean onTheScale =
        parts.group(2).matches("I|IV")
            || (parts.group(1).equals("b") && parts.group(2).matches("II|III|VI"));
    boolean major = kind.equals("M") || (third == 4 && kind.isEmpty() && onTheScale);
    return major ? 11 : 10;
  }
}
