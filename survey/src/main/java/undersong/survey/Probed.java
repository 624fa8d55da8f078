package undersong.survey;

import java.io.Serializable;

/**
 * A recording that was opened.
 *
 * @param contentHash of its sound; "" where it cannot be read
 * @param failure why not; "" where it can
 */
record Probed(Source source, String contentHash, String failure) implements Serializable {
  private static final long serialVersionUID = 1;

  boolean isReadable() {
    return failure.isEmpty();
  }
}
