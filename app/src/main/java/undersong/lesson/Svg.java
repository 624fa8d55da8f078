package undersong.lesson;

import java.util.Locale;

/** Parts that all pictures of a lesson are put together from. */
final class Svg {
  static final int WIDTH = 720;

  private Svg() {}

  /**
   * @param words the content for those who do not see it
   */
  static String picture(String kind, int height, String words, String shapes) {
    return line(
        "<svg role=\"img\" class=\"%s\" viewBox=\"0 0 %d %d\"><title>%s</title>%s</svg>",
        kind, WIDTH, height, Markup.escaped(words.strip()), shapes);
  }

  static String line(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }

  static String figure(String picture, String caption) {
    return picture.isEmpty()
        ? ""
        : "<figure>" + picture + "<figcaption>" + caption + "</figcaption></figure>\n";
  }
}
