package undersong.desk;

import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import undersong.technique.Technique;
import undersong.time.Span;
import undersong.work.Trouble;

/** What requests name: songs, times, revisions. Each says clearly what it could not read. */
final class Requests {
  private static final Pattern REVISION = Pattern.compile("\"(\\d{1,9})(-[0-9a-f]+)?\"");

  private Requests() {}

  static long song(Context request) {
    return number(request, "song");
  }

  static long number(Context request, String name) {
    String text = request.pathParam(name);
    try {
      return Long.parseLong(text);
    } catch (NumberFormatException notANumber) {
      throw new Trouble.NotOnShelf(
          "There is no %s \"%s\"; it must be a number.".formatted(name, text));
    }
  }

  static String needed(Context request, String name) {
    String text = request.queryParam(name);
    if (text == null || text.isBlank()) {
      throw new Trouble.WrongUsage("The query must say %s=...".formatted(name));
    }
    return text;
  }

  /** From {@code fromSeconds} to {@code toSeconds}; all of it where they are left out. */
  static Span span(Context request) {
    return span(request, Double.MAX_VALUE);
  }

  /** As {@link #span(Context)}; throws where it is longer than that. */
  static Span span(Context request, double longestSeconds) {
    double from = seconds(request, "fromSeconds", 0);
    double to = seconds(request, "toSeconds", from + Math.min(longestSeconds, 1e6));
    if (!(from >= 0 && to > from && to - from <= longestSeconds)) {
      throw new Trouble.WrongUsage(
          "The span from %s s to %s s must begin at 0 or later, end later than it begins and last at most %.0f s."
              .formatted(from, to, longestSeconds));
    }
    return new Span(from, to);
  }

  static double seconds(Context request, String name, double otherwise) {
    String text = request.queryParam(name);
    try {
      return text == null ? otherwise : Double.parseDouble(text);
    } catch (NumberFormatException notANumber) {
      throw new Trouble.WrongUsage("%s is \"%s\"; it must be seconds.".formatted(name, text));
    }
  }

  /** The technique of an id; throws {@link Trouble.NotOnShelf} where there is none. */
  static Technique technique(String id) {
    try {
      return Technique.named(id);
    } catch (IllegalArgumentException unknown) {
      throw new Trouble.NotOnShelf(unknown.getMessage());
    }
  }

  static int count(Context request, String name, int otherwise, int most) {
    String text = request.queryParam(name);
    try {
      int count = text == null ? otherwise : Integer.parseInt(text);
      if (count >= 1 && count <= most) {
        return count;
      }
    } catch (NumberFormatException notANumber) {
      // falls through to the one message below
    }
    throw new Trouble.WrongUsage(
        "%s is \"%s\"; it must be a whole number from 1 to %d.".formatted(name, text, most));
  }

  /** LOW_OCTAVE_UP is called low-octave-up. */
  static <E extends Enum<E>> E oneOf(E[] values, String word, String name) {
    List<String> words = new ArrayList<>();
    for (E value : values) {
      String own = value.name().toLowerCase(Locale.ROOT).replace('_', '-');
      if (own.equals(word)) {
        return value;
      }
      words.add(own);
    }
    throw new Trouble.WrongUsage(
        "There is no %s \"%s\"; there are %s.".formatted(name, word, words));
  }

  /** A range of bytes is asked for that lies behind the last. */
  static final class BeyondTheEnd extends RuntimeException {
    BeyondTheEnd(long first, long length) {
      super("The range begins at byte %d; there are %d.".formatted(first, length));
    }
  }

  /** The revision that If-Match names; empty where the header is left out. */
  static OptionalInt seenRevision(Context request) {
    String header = request.header("If-Match");
    if (header == null) {
      return OptionalInt.empty();
    }
    Matcher revision = REVISION.matcher(header.strip());
    if (!revision.matches()) {
      throw new Trouble.WrongUsage(
          "If-Match is %s; it must be a revision in quotes, such as \"7\".".formatted(header));
    }
    return OptionalInt.of(Integer.parseInt(revision.group(1)));
  }
}
