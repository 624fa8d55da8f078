package undersong.shelf;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Source: XDG Base Directory Specification 0.8, "Environment variables" (from memory). */
class DataFolderTest {
  private static final Path HOME = Path.of("/home/someone");

  @Test
  void followsTheXdgSpecification() {
    assertThat(DataFolder.of("Linux", HOME, Map.of()))
        .isEqualTo(Path.of("/home/someone/.local/share/undersong"));
    assertThat(DataFolder.of("Linux", HOME, Map.of("XDG_DATA_HOME", "/data")))
        .isEqualTo(Path.of("/data/undersong"));
    assertThat(DataFolder.of("Linux", HOME, Map.of("XDG_DATA_HOME", "relative/is/ignored")))
        .isEqualTo(Path.of("/home/someone/.local/share/undersong"));
  }

  @Test
  void liesWhereOtherSystemsKeepSuchThings() {
    assertThat(DataFolder.of("Mac OS X", HOME, Map.of()))
        .isEqualTo(HOME.resolve("Library/Application Support/undersong"));
    assertThat(DataFolder.of("Windows 11", HOME, Map.of("LOCALAPPDATA", "/local")))
        .isEqualTo(Path.of("/local/undersong"));
  }
}
