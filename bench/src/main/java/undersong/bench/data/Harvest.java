package undersong.bench.data;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/**
 * What a reader brought in, and what it had to refuse.
 *
 * @param refused one line each: which file and why
 */
public record Harvest<T>(List<T> read, List<String> refused) {
  public Harvest {
    read = List.copyOf(read);
    refused = List.copyOf(refused);
  }

  /** Reads one file; throws {@link Unreadable} or {@link IOException} where it cannot. */
  @FunctionalInterface
  public interface Reader<T> {
    T read(Path path) throws IOException;
  }

  /** A file that does not follow its data set's format. */
  public static final class Unreadable extends RuntimeException {
    public Unreadable(String message) {
      super(message);
    }
  }

  static <T> Harvest<T> of(List<Path> paths, Reader<T> reader) {
    List<T> read = new ArrayList<>();
    List<String> refused = new ArrayList<>();
    for (Path path : paths) {
      try {
        read.add(reader.read(path));
      } catch (IOException | Unreadable cause) {
        refused.add(path.getFileName() + ": " + cause.getMessage());
      }
    }
    return new Harvest<>(read, refused);
  }

  /** Entries of a folder in order of name; one clear error where the folder is missing. */
  static List<Path> list(Path folder) {
    try (Stream<Path> entries = Files.list(folder)) {
      return entries.sorted().toList();
    } catch (IOException cause) {
      throw new OpenData.Missing(
          "Folder %s is missing; set UNDERSONG_DATA to the folder that holds the open data sets."
              .formatted(folder),
          cause);
    }
  }
}
