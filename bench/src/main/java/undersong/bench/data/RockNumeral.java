package undersong.bench.data;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import undersong.bench.metrics.ChordCode;

/**
 * Roman numerals as the rock corpus writes them: relative to the major scale in every key, figures
 * for inversions, {@code d7} = dominant seventh, {@code h} half-diminished, {@code x} fully
 * diminished, {@code s4} suspended, {@code /V} applied.
 *
 * <p>Source: T. de Clercq, D. Temperley, "A corpus analysis of rock harmony", Popular Music 30(1),
 * 2011, and the corpus's own description. A bare {@code 7} takes the seventh of the major scale.
 */
final class RockNumeral {
  private static final Pattern NUMERAL =
      Pattern.compile(
          "([b#]*)(VII|VI|IV|V|III|II|I|vii|vi|iv|v|iii|ii|i)([ohxad+M]?)"
              + "(s4|s2)?(b5|#5)?(\\(?(?:13|11|9|7|65|64|6|5|43|42|4|2)?\\)?)(b9|#9|s4|#11|b5)*");
  private static final java.util.List<String> STEPS =
      java.util.List.of("I", "II", "III", "IV", "V", "VI", "VII");
  private static final int[] MAJOR = {0, 2, 4, 5, 7, 9, 11};

  private RockNumeral() {}

  static ChordCode read(String text, int tonic) {
    String[] applied = text.split("/");
    int center = tonic;
    for (int i = applied.length - 1; i >= 0; i--) {
      Matcher parts = NUMERAL.matcher(applied[i]);
      if (!parts.matches()) {
        throw new Harvest.Unreadable("numeral \"%s\" is none".formatted(text));
      }
      if (i == 0) {
        return chord(parts, center);
      }
      center = Math.floorMod(center + root(parts), 12);
    }
    throw new AssertionError(text);
  }

  private static int root(Matcher parts) {
    int altered = parts.group(1).chars().map(s -> s == '#' ? 1 : -1).sum();
    return MAJOR[STEPS.indexOf(parts.group(2).toUpperCase(java.util.Locale.ROOT))] + altered;
  }

  private static ChordCode chord(Matcher parts, int center) {
    boolean minor = Character.isLowerCase(parts.group(2).charAt(0));
    String kind = parts.group(3);
    boolean diminished = kind.equals("o") || kind.equals("h") || kind.equals("x");
    boolean augmented = kind.equals("a") || kind.equals("+");
    int third = minor || diminished ? 3 : 4;
    int fifth = diminished || "b5".equals(parts.group(5)) ? 6 : augmented ? 8 : 7;
    if ("s4".equals(parts.group(4))) {
      third = 5;
    } else if ("s2".equals(parts.group(4))) {
      third = 2;
    }
    String figure = parts.group(6).replaceAll("[()]", "");
    int seventh = seventh(parts, kind, third);
    int bits = 1 | 1 << third | 1 << fifth;
    int bass = 0;
    switch (figure) {
      case "7", "9", "11", "13" -> bits |= 1 << seventh;
      case "65" -> {
        bits |= 1 << seventh;
        bass = third;
      }
      case "43" -> {
        bits |= 1 << seventh;
        bass = fifth;
      }
      case "42", "2" -> {
        bits |= 1 << seventh;
        bass = seventh;
      }
      case "6" -> bass = third;
      case "64" -> bass = fifth;
      case "5" -> bits = 1 | 1 << fifth;
      default -> {}
    }
    return ChordCode.of(Math.floorMod(center + root(parts), 12), bits, bass);
  }

  private static int seventh(Matcher parts, String kind, int third) {
    if (kind.equals("x")) {
      return 9;
    }
    if (kind.equals("M")) {
      return 11;
    }
    boolean ofTheScale =
        parts.group(2).matches("I|IV")
            || (parts.group(1).equals("b") && parts.group(2).matches("II|III|VI"));
    return third == 4 && kind.isEmpty() && ofTheScale ? 11 : 10;
  }
}
