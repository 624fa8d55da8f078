package undersong.trend;

import java.text.MessageFormat;
import java.util.Locale;
import java.util.ResourceBundle;

/** The one place where what is said of a whole shelf has words, ready for translation. */
final class TrendWords {
  private static final Locale LOCALE = Locale.ENGLISH;
  private static final ResourceBundle WORDS =
      ResourceBundle.getBundle(
          "undersong.trend.trend",
          LOCALE,
          ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));

  private TrendWords() {}

  /** A sentence, or a part of one; throws where its key has no words. */
  static String say(String key, Object... arguments) {
    return new MessageFormat(WORDS.getString(key), LOCALE).format(arguments);
  }
}
