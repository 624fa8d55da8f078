package undersong.desk;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Part of a body that a request asks for (RFC 9110, section 14).
 *
 * @param first from 0
 * @param last inclusive; before {@code first} where the range lies outside the body
 */
record ByteRange(long first, long last) {
  private static final Pattern ONE =
      Pattern.compile("bytes\\s*=\\s*(\\d{0,18})\\s*-\\s*(\\d{0,18})\\s*");

  /**
   * Reads a Range header. Empty where there is none, or where it is nothing this server follows
   * (several ranges, another unit, junk): then the whole body is the right answer.
   */
  static Optional<ByteRange> parse(String header, long length) {
    Matcher range = ONE.matcher(header == null ? "" : header.strip());
    if (!range.matches()) {
      return Optional.empty();
    }
    String from = range.group(1);
    String to = range.group(2);
    if (from.isEmpty()) {
      if (to.isEmpty()) {
        return Optional.empty();
      }
      long suffix = Math.min(Long.parseLong(to), length);
      return Optional.of(new ByteRange(length - suffix, length - 1));
    }
    long first = Long.parseLong(from);
    long last = to.isEmpty() ? length - 1 : Long.parseLong(to);
    if (last < first && !to.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(new ByteRange(first, Math.min(last, length - 1)));
  }

  /** Whether there is anything of it in the body. */
  boolean satisfiable() {
    return last >= first;
  }

  long length() {
    return last - first + 1;
  }
}
