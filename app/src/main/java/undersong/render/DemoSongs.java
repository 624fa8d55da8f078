package undersong.render;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** The songs that come with the program, read from its resources. */
public final class DemoSongs {
  private static final List<String> IDS =
      List.of("low-water", "count-the-ferries", "tar-and-honey");

  private DemoSongs() {}

  public static List<DemoSong> all() {
    return IDS.stream().map(DemoSongs::read).toList();
  }

  /** One song by its id; throws where there is none of that id. */
  public static DemoSong named(String id) {
    if (!IDS.contains(id)) {
      throw new IllegalArgumentException(
          "No demo song has the id \"%s\"; there are %s.".formatted(id, IDS));
    }
    return read(id);
  }

  private static DemoSong read(String id) {
    String name = "/undersong/demo/" + id + ".score";
    try (InputStream in = DemoSongs.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException("The program was built without " + name + ".");
      }
      return DemoSong.of(id, new String(in.readAllBytes(), StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
