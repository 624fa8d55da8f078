package undersong.bench.data;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;

/** Where the open data sets lie on this machine: the environment variable UNDERSONG_DATA. */
public final class OpenData {
  private OpenData() {}

  /** A data set, tool or file the bench would need; the message says what to install. */
  public static final class Missing extends RuntimeException {
    public Missing(String message) {
      super(message);
    }

    Missing(String message, Throwable cause) {
      super(message, cause);
    }
  }

  /** The folder of data sets, if the variable names one. */
  public static Optional<Path> find() {
    return Optional.ofNullable(System.getenv("UNDERSONG_DATA"))
        .map(Path::of)
        .filter(Files::isDirectory);
  }

  /** One data set's folder; throws where it is missing. */
  public static Path folder(String name) {
    Path folder =
        find()
            .orElseThrow(
                () ->
                    new Missing(
                        "UNDERSONG_DATA names no folder; set it to the folder that holds the open"
                            + " data sets."))
            .resolve(name);
    if (!Files.isDirectory(folder)) {
      throw new Missing("Data set %s is missing under UNDERSONG_DATA.".formatted(name));
    }
    return folder;
  }
}
