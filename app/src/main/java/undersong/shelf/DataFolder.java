package undersong.shelf;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;

/** Where a user's own data lies when nothing else is said. */
public final class DataFolder {
  private DataFolder() {}

  /** The folder of this user on this system; it may not exist yet. */
  public static Path standard() {
    return of(
        System.getProperty("os.name", ""),
        Path.of(System.getProperty("user.home")),
        System.getenv());
  }

  /**
   * The XDG base directory on Unix (variable {@code XDG_DATA_HOME}, else {@code ~/.local/share}),
   * {@code Application Support} on a Mac, {@code %LOCALAPPDATA%} on Windows.
   */
  static Path of(String system, Path home, Map<String, String> environment) {
    String name = system.toLowerCase(Locale.ROOT);
    if (name.contains("mac")) {
      return home.resolve("Library/Application Support/undersong");
    }
    String variable = name.contains("windows") ? "LOCALAPPDATA" : "XDG_DATA_HOME";
    String usual = name.contains("windows") ? "AppData/Local" : ".local/share";
    String said = environment.getOrDefault(variable, "");
    // The XDG specification: a path that is not absolute is to be ignored.
    Path base = said.isEmpty() || !Path.of(said).isAbsolute() ? home.resolve(usual) : Path.of(said);
    return base.resolve("undersong");
  }
}
