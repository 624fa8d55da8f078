package undersong.theory;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads the RomanText analyses of when-in-rome-lieder far enough to compare them: numerals with
 * place and key, written in the numerals' own form of this project.
 *
 * <p>RomanText leaves to its reader what a seventh and a degree of minor is: a seventh is the scale
 * note of the key; in minor vi and vii stand on the raised degrees, VI and VII on the natural ones
 * (its "quality" rule). Augmented sixths, altered or bracketed notes and figures of suspensions
 * have no counterpart in a numeral here and are given back as not comparable.
 */
final class RomanText {
  /** One numeral; {@code numeral} in our own writing, empty where it has no counterpart. */
  record Event(int bar, double beat, Key key, String written, Optional<String> numeral) {
    Event inBar(int otherBar) {
      return new Event(otherBar, beat, key, written, numeral);
    }
  }

  private static final Pattern REPEAT =
      Pattern.compile("m(\\d+)(?:-(\\d+))?\\s*=\\s*m(\\d+)(?:-(\\d+))?");
  private static final Pattern BAR = Pattern.compile("m(\\d+)\\s+(.*)");
  private static final Pattern KEY = Pattern.compile("([A-Ga-g])([#b]*):");
  private static final Pattern NUMERAL =
      Pattern.compile(
          "([#b]*)(VII|VI|V|IV|III|II|I|vii|vi|v|iv|iii|ii|i)(o|ø|/o|\\+)?([0-9/]*)(\\+)?"
              + "(?:/([#b]*)(VII|VI|V|IV|III|II|I|vii|vi|v|iv|iii|ii|i))?");

  private RomanText() {}

  static List<Event> events(List<String> lines) {
    List<Event> events = new ArrayList<>();
    Key key = null;
    for (String line : lines) {
      String text = line.strip();
      Matcher repeat = REPEAT.matcher(text);
      if (repeat.lookingAt()) {
        copy(events, repeat);
        continue;
      }
      Matcher bar = BAR.matcher(text);
      if (!bar.matches()) {
        continue;
      }
      double beat = 1;
      for (String token : bar.group(2).split("\\s+")) {
        Matcher newKey = KEY.matcher(token);
        if (newKey.matches()) {
          boolean minor = Character.isLowerCase(token.charAt(0));
          String tonic = newKey.group(1).toUpperCase(java.util.Locale.ROOT) + newKey.group(2);
          key = new Key(NoteName.parse(tonic), minor ? Mode.NATURAL_MINOR : Mode.MAJOR);
        } else if (token.matches("b\\d+(\\.\\d+)?")) {
          beat = Double.parseDouble(token.substring(1));
        } else if (key != null && token.matches("[#b]*(Cad|It|Ger|Fr|[IViv]).*")) {
          int number = Integer.parseInt(bar.group(1));
          events.add(new Event(number, beat, key, token, numeral(token, key)));
        }
      }
    }
    return events;
  }

  private static void copy(List<Event> events, Matcher repeat) {
    int to = Integer.parseInt(repeat.group(1));
    int from = Integer.parseInt(repeat.group(3));
    int last = repeat.group(4) == null ? from : Integer.parseInt(repeat.group(4));
    for (Event event : List.copyOf(events)) {
      if (event.bar() >= from && event.bar() <= last) {
        events.add(event.inBar(event.bar() - from + to));
      }
    }
  }

  private static Optional<String> numeral(String written, Key key) {
    String text = written.replace("Cad64", key.mode().isMinor() ? "i64" : "I64");
    Matcher matcher = NUMERAL.matcher(text);
    if (!matcher.matches() || matcher.group(5) != null) {
      return Optional.empty();
    }
    String figure = matcher.group(4).replace("/", "");
    if (!List.of("", "6", "64", "7", "65", "43", "42", "2").contains(figure)) {
      return Optional.empty();
    }
    Key local = key;
    String target = "";
    if (matcher.group(7) != null) {
      String degree = rebased(matcher.group(6), matcher.group(7), key);
      target = "/" + degree;
      RomanNumeral of = Numerals.parse(degree, key, NumeralSettings.DEFAULTS);
      boolean minor = matcher.group(7).equals(lower(matcher.group(7)));
      local = new Key(of.root().above(key.tonic()), minor ? Mode.NATURAL_MINOR : Mode.MAJOR);
    }
    String root = rebased(matcher.group(1), matcher.group(2), local);
    String sign = matcher.group(3) == null ? "" : matcher.group(3).replace("/o", "ø");
    boolean seventh = List.of("7", "65", "43", "42", "2").contains(figure);
    if ((sign.equals("+") && seventh) || (sign.equals("ø") && !seventh)) {
      return Optional.empty();
    }
    String mark = sign.replace("o", "°");
    if (seventh && sign.isEmpty() && hasMajorSeventh(root, local)) {
      mark = "maj";
    }
    return Optional.of(root + mark + figure + target);
  }

  /**
   * Degrees of minor read against the major scale. One sign that only repeats what the rule says
   * (bVI, #vii) is taken as cautionary, as the scores confirm.
   */
  private static String rebased(String signs, String roman, Key key) {
    if (!key.mode().isMinor()) {
      return signs + roman;
    }
    boolean lowered = List.of("III", "iii", "VI", "VII").contains(roman);
    boolean raised = roman.equals("vi") || roman.equals("vii");
    if (lowered) {
      return (signs.startsWith("#") ? signs.substring(1) : signs.equals("b") ? "b" : signs + "b")
          + roman;
    }
    return (raised && signs.equals("#") ? "" : signs) + roman;
  }

  /** The seventh is the note of the scale, whatever the triad. */
  private static boolean hasMajorSeventh(String root, Key key) {
    NoteName note = Numerals.parse(root, key, NumeralSettings.DEFAULTS).root().above(key.tonic());
    for (NoteName scaleNote : key.scale()) {
      ChordDegree degree = ChordDegree.between(note, scaleNote);
      if (degree.number() == 7) {
        return degree.alteration() == 0;
      }
    }
    throw new AssertionError(root);
  }

  private static String lower(String roman) {
    return roman.toLowerCase(java.util.Locale.ROOT);
  }
}
