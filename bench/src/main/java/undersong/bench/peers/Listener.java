package undersong.bench.peers;

import java.io.IOException;
import java.nio.file.Path;
import undersong.bench.render.Truth;

/** Somebody whose ear is measured. */
public interface Listener {
  String name();

  /**
   * Whether it is asked at all.
   *
   * @param copy "clean", "worn" or "real"
   */
  default boolean hears(String copy) {
    return true;
  }

  /**
   * @param truth for trivial answers that are given the best constant; nobody else may look
   */
  Heard hear(Path audio, Truth truth) throws IOException;
}
