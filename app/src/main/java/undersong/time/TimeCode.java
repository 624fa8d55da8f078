package undersong.time;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Times as people and players write them. */
public final class TimeCode {
  private static final Pattern TIME =
      Pattern.compile("(?:(?:(\\d+):)?(\\d{1,3}):)?(\\d+(?:\\.\\d*)?)");

  private TimeCode() {}

  /** Whether {@link #seconds} reads it. */
  public static boolean isTime(String text) {
    return TIME.matcher(text.strip()).matches();
  }

  /** Reads seconds (12.5), minutes and seconds (3:07.5) or hours too (1:03:07). */
  public static double seconds(String text) {
    Matcher time = TIME.matcher(text.strip());
    if (!time.matches()) {
      throw new IllegalArgumentException(
          "\"%s\" is no time; write seconds (12.5) or minutes and seconds (3:07)."
              .formatted(text.strip()));
    }
    double seconds = Double.parseDouble(time.group(3));
    if (time.group(2) != null && seconds >= 60) {
      throw new IllegalArgumentException(
          "\"%s\" is no time: seconds after a colon stay below 60.".formatted(text.strip()));
    }
    return seconds + 60 * whole(time.group(2)) + 3600 * whole(time.group(1));
  }

  private static double whole(String digits) {
    return digits == null ? 0 : Double.parseDouble(digits);
  }

  /** Minutes and seconds, rounded down: 3:07; from one hour on 1:03:07. */
  public static String minutes(double seconds) {
    long whole = (long) Math.floor(seconds);
    return whole < 3600
        ? String.format(Locale.ROOT, "%d:%02d", whole / 60, whole % 60)
        : String.format(Locale.ROOT, "%d:%02d:%02d", whole / 3600, whole / 60 % 60, whole % 60);
  }

  /** A WebVTT timestamp (W3C): 00:03:07.250. */
  public static String webVtt(double seconds) {
    long milliseconds = Math.round(seconds * 1000);
    return String.format(
        Locale.ROOT,
        "%02d:%02d:%02d.%03d",
        milliseconds / 3_600_000,
        milliseconds / 60_000 % 60,
        milliseconds / 1000 % 60,
        milliseconds % 1000);
  }
}
