package undersong.theory;

import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads numerals in one key under one setting: the inverse of {@link NumeralPrinter}. */
final class NumeralReader {
  private static final String ROMAN = "VII|VI|V|IV|III|II|I|vii|vi|v|iv|iii|ii|i";
  private static final Pattern SPELLING =
      Pattern.compile(
          "(?<signs>b*|#*)(?:(?<roman>"
              + ROMAN
              + ")|(?<degree>[1-7]))"
              + "(?<mark>°|o|ø|\\+|maj|add6|sus2|sus4|\\(no 3rd\\)|\\(root alone\\)|)"
              + "(?<figure>6/5|65|6/4|64|4/3|43|4/2|42|2|9|7|6|)"
              + "(?:/(?<member>[357]))?"
              + "(?:(?:/| of )(?<targetSigns>b*|#*)(?<target>"
              + ROMAN
              + "))?"
              + "(?: over (?<bass>[b#]*[1-7]))?");
  private static final NoteName ANY_TONIC = new NoteName(0);

  private final NumeralPrinter printer;
  private final Key key;

  NumeralReader(Key key, NumeralSettings settings) {
    this.key = key;
    this.printer = new NumeralPrinter(key, settings);
  }

  RomanNumeral read(String text) {
    Matcher matcher = SPELLING.matcher(text);
    if (!matcher.matches()) {
      throw wrong(text, "it must be like V7, bVII, ii6/5, V65/V, 4(no 3rd)");
    }
    Optional<ScaleDegree> target =
        Optional.ofNullable(matcher.group("target"))
            .map(roman -> degree(step(roman), matcher.group("targetSigns"), true));
    ScaleDegree root = root(matcher, target.isPresent());
    ChordQuality quality = quality(text, matcher);
    return new RomanNumeral(root, quality, bass(text, matcher, root, quality, target), target);
  }

  private ScaleDegree root(Matcher matcher, boolean applied) {
    String roman = matcher.group("roman");
    int step = roman == null ? Integer.parseInt(matcher.group("degree")) : step(roman);
    return degree(step, matcher.group("signs"), !applied);
  }

  private static int step(String roman) {
    return NumeralPrinter.ROMAN.indexOf(roman.toUpperCase(Locale.ROOT)) + 1;
  }

  private ScaleDegree degree(int step, String signs, boolean inKey) {
    int alteration = signs.startsWith("#") ? signs.length() : -signs.length();
    return new ScaleDegree(step, alteration + (inKey ? printer.reference(step) : 0));
  }

  private static ChordQuality quality(String text, Matcher matcher) {
    String roman = matcher.group("roman");
    String mark = matcher.group("mark").equals("o") ? "°" : matcher.group("mark");
    String figure = matcher.group("figure").replace("/", "");
    boolean seventh = figure.matches("7|65|43|42|2");
    boolean ninth = figure.equals("9");
    for (ChordQuality quality : ChordQuality.values()) {
      boolean caseless = quality.hasNoThird();
      boolean caseFits =
          roman == null
              ? caseless
              : mark.startsWith("sus")
                  || (!caseless
                      && quality.hasMinorThird() == roman.equals(roman.toLowerCase(Locale.ROOT)));
      if (caseFits
          && NumeralPrinter.mark(quality).equals(mark)
          && NumeralPrinter.isSeventh(quality) == seventh
          && NumeralPrinter.isNinth(quality) == ninth) {
        return quality;
      }
    }
    throw wrong(text, "case, sign and figure name no chord type together");
  }

  private ScaleDegree bass(
      String text,
      Matcher matcher,
      ScaleDegree root,
      ChordQuality quality,
      Optional<ScaleDegree> target) {
    NoteName rootName = root.above(ANY_TONIC);
    if (matcher.group("bass") != null) {
      NoteName tonic = target.map(degree -> degree.above(ANY_TONIC)).orElse(ANY_TONIC);
      return ScaleDegree.of(tonic, ScaleDegree.parse(matcher.group("bass")).above(ANY_TONIC));
    }
    String member = matcher.group("member");
    int number = member == null ? number(matcher.group("figure")) : Integer.parseInt(member);
    for (ChordDegree degree : quality.degrees()) {
      if (degree.number() == number) {
        return ScaleDegree.of(ANY_TONIC, degree.above(rootName));
      }
    }
    throw wrong(text, "the chord in %s has no member %d to put lowest".formatted(key, number));
  }

  /** Member in the bass that a figure tells. */
  private static int number(String figure) {
    return switch (figure.replace("/", "")) {
      case "6", "65" -> 3;
      case "64", "43" -> 5;
      case "42", "2" -> 7;
      default -> 1;
    };
  }

  private static IllegalArgumentException wrong(String text, String why) {
    return new IllegalArgumentException(
        "Roman numeral \"%s\" cannot be read: %s.".formatted(text, why));
  }
}
