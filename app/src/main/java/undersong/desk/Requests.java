package undersong.desk;

import io.javalin.http.Context;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
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

  /** The stored settings, with those the query names in their place. */
  static Wording wording(Context request) {
    return SettingWords.changed(Wording.DEFAULTS, request::queryParam);
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
