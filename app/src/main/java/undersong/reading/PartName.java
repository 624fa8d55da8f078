package undersong.reading;

import java.util.regex.Pattern;

/** The names by which parts are known everywhere, in files too. */
public final class PartName {
  public static final String BASS = "bass";
  public static final String MELODY = "melody";

  private static final Pattern VOICE = Pattern.compile("voice-([2-9]|[1-9][0-9])");
  private static final Pattern LINE = Pattern.compile("line-([1-9]|[1-9][0-9])");

  private PartName() {}

  /**
   * @param number from 2: the lead is the first voice
   */
  public static String voice(int number) {
    return checkVoice("voice-" + number);
  }

  /**
   * @param number from 1
   */
  public static String line(int number) {
    return checkLine("line-" + number);
  }

  public static boolean isVoice(String name) {
    return VOICE.matcher(name).matches();
  }

  public static boolean isLine(String name) {
    return LINE.matcher(name).matches();
  }

  static String checkVoice(String name) {
    if (!isVoice(name)) {
      throw new IllegalArgumentException(
          "A voice is called voice-2 to voice-99, not \"%s\"; the lead is \"melody\"."
              .formatted(name));
    }
    return name;
  }

  static String checkLine(String name) {
    if (!isLine(name)) {
      throw new IllegalArgumentException(
          "A line is called line-1 to line-99, not \"%s\".".formatted(name));
    }
    return name;
  }
}
