package undersong.shelf;

import java.nio.file.Path;
import java.util.OptionalLong;

/**
 * A recording on its way to the shelf.
 *
 * @param name of the file, as it was handed over
 * @param path of our own copy
 * @param songId once done
 * @param message why it failed; empty else
 */
public record Arrival(
    long id, String name, Path path, State state, OptionalLong songId, String message) {

  /** How far it has come. */
  public enum State {
    WAITING,
    WORKING,
    DONE,
    FAILED,
    CANCELLED;

    /** Whether nothing more will happen to it. */
    public boolean ended() {
      return this != WAITING && this != WORKING;
    }
  }
}
