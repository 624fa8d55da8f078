package undersong.render.focus;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Stream;

/**
 * Keeps renderings in files, so that what was listened to once starts at once. A file appears whole
 * or not at all; when the folder outgrows its limit, what was not asked for longest goes first.
 */
public final class RenderingFiles {
  private static final String ENDING = ".wav";

  private final Path folder;
  private final long limitBytes;
  private final InstantSource clock;
  private final Map<String, Object> making = new ConcurrentHashMap<>();

  /**
   * @param folder made if absent; may be deleted at any time
   * @param limitBytes that all files together may take; the newest is kept even above it
   */
  public RenderingFiles(Path folder, long limitBytes, InstantSource clock) {
    this.folder = folder;
    this.limitBytes = limitBytes;
    this.clock = clock;
  }

  /** Writes a rendering to a file. */
  @FunctionalInterface
  public interface Maker {
    void write(Path file) throws IOException;
  }

  /**
   * The file of a rendering, made now if it is not kept.
   *
   * @param name says everything that the rendering depends on; letters, digits, dots and dashes
   */
  public Path file(String name, Maker maker) {
    if (!name.matches("[0-9A-Za-z._-]{1,200}")) {
      throw new IllegalArgumentException(
          "Name \"%s\" of a rendering must be letters, digits, dots and dashes.".formatted(name));
    }
    Path file = folder.resolve(name + ENDING);
    try {
      if (Files.isRegularFile(file)) {
        Files.setLastModifiedTime(file, FileTime.from(clock.instant()));
        return file;
      }
    } catch (IOException gone) {
      // Somebody made room just now; it is made again.
    }
    // Two who ask for the same wait for one making; others are not held up by it.
    synchronized (making.computeIfAbsent(name, n -> new Object())) {
      return made(file, maker);
    }
  }

  private Path made(Path file, Maker maker) {
    try {
      if (!Files.isRegularFile(file)) {
        Files.createDirectories(folder);
        Path partial = Files.createTempFile(folder, "partial-", ".tmp");
        try {
          maker.write(partial);
          Files.move(
              partial, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        } finally {
          Files.deleteIfExists(partial);
        }
      }
      Files.setLastModifiedTime(file, FileTime.from(clock.instant()));
      evict(file);
      return file;
    } catch (IOException e) {
      throw new UncheckedIOException(
          "The rendering could not be kept in %s; maybe the disk is full.".formatted(folder), e);
    }
  }

  private synchronized void evict(Path newest) throws IOException {
    record Kept(Path file, long bytes, FileTime used) {}
    List<Kept> files = new ArrayList<>();
    try (Stream<Path> listed = Files.list(folder)) {
      for (Path file : (Iterable<Path>) listed::iterator) {
        if (file.getFileName().toString().endsWith(ENDING)) {
          files.add(new Kept(file, Files.size(file), Files.getLastModifiedTime(file)));
        }
      }
    }
    files.sort(Comparator.comparing(Kept::used));
    long total = files.stream().mapToLong(Kept::bytes).sum();
    for (Kept kept : files) {
      if (total > limitBytes && !kept.file().equals(newest)) {
        Files.deleteIfExists(kept.file());
        total -= kept.bytes();
      }
    }
  }
}
