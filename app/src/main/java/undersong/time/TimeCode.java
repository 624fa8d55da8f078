package undersong.time;

import java.util.Locale;

/** Times as people and players write them. */
public final class TimeCode {
  private TimeCode() {}

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
