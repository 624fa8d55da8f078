package undersong.shelf;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.stream.Stream;
import undersong.work.Trouble;

/**
 * A whole shelf as one SQLite file, and back, whatever keeps the shelf: songs, what was said of
 * them, readings, lessons. Recordings stay where they are; their paths are in the file.
 */
final class ShelfCopy {
  private static final String CAUSE =
      "Maybe it is another kind of file, was cut short, or a newer program wrote it.";

  private ShelfCopy() {}

  /** Writes a copy as of now, also while others write; an existing file is never overwritten. */
  static void save(ShelfDatabase database, Path file) {
    if (Files.exists(file)) {
      throw new Trouble.WrongUsage(
          "%s exists already; a saved shelf never overwrites a file. Name a new one."
              .formatted(file));
    }
    Path part = file.toAbsolutePath().resolveSibling(file.getFileName() + ".part");
    try {
      Files.createDirectories(file.toAbsolutePath().getParent());
      remove(part);
      try (ShelfDatabase copy = FileOpening.open(part)) {
        database.<Object>readAtOnce(
            from ->
                copy.<Object>write(
                    to -> {
                      ShelfRows.copyAll(from, to);
                      return null;
                    }));
      }
      FileOpening.makeSingleFile(part);
      try (FileChannel written = FileChannel.open(part, StandardOpenOption.WRITE)) {
        written.force(true);
      }
      Files.move(part, file, StandardCopyOption.ATOMIC_MOVE);
    } catch (IOException | SQLException cause) {
      throw new Trouble.WrongUsage(
          "The shelf cannot be saved to %s: %s. Maybe the disk is full or the folder is read-only."
              .formatted(file, cause));
    } finally {
      remove(part);
    }
  }

  /**
   * Fills an empty shelf from a saved one, in one step: all of it, or nothing. A working copy lies
   * in this machine's folder meanwhile.
   */
  static void load(ShelfDatabase database, Path file) {
    check(file);
    Path copy = null;
    try {
      copy = Files.createTempFile(database.place().folder(), "loading-", ".shelf");
      Files.copy(file, copy, StandardCopyOption.REPLACE_EXISTING);
      // Opening brings an older layout to today's, on the copy.
      try (ShelfDatabase saved = FileOpening.open(copy)) {
        saved.<Object>read(
            from ->
                database.<Object>write(
                    to -> {
                      requireNoSongs(to);
                      ShelfRows.clear(to);
                      ShelfRows.copyAll(from, to);
                      if (database.isServer()) {
                        ShelfRows.countOn(to);
                      }
                      return null;
                    }));
      }
    } catch (IOException cause) {
      throw new Trouble.WrongUsage("%s cannot be loaded: %s.".formatted(file, cause));
    } finally {
      if (copy != null) {
        remove(copy);
      }
    }
  }

  private static void requireNoSongs(org.jdbi.v3.core.Handle handle) {
    int songs = handle.createQuery("SELECT count(*) FROM song").mapTo(Integer.class).one();
    if (songs > 0) {
      throw new Trouble.WrongUsage(
          "This shelf holds songs already (%d); a saved shelf is loaded into an empty one. Name a new place with --shelf."
              .formatted(songs));
    }
  }

  /** Refuses whatever is no sound shelf of this program, without touching it. */
  private static void check(Path file) {
    if (!Files.isRegularFile(file)) {
      throw new Trouble.WrongUsage(
          "There is no file %s; name one that was written with --save.".formatted(file));
    }
    try (var connection =
            DriverManager.getConnection("jdbc:sqlite:file:" + file.toAbsolutePath() + "?mode=ro");
        var statement = connection.createStatement()) {
      int layout;
      try (var answer = statement.executeQuery("PRAGMA user_version")) {
        layout = answer.next() ? answer.getInt(1) : 0;
      }
      String sound;
      try (var answer = statement.executeQuery("PRAGMA integrity_check")) {
        sound = answer.next() ? answer.getString(1) : "";
      }
      if (layout < 1 || layout > ShelfDatabase.LAYOUT || !sound.equals("ok")) {
        throw refused(file, "layout %d, check: %s".formatted(layout, sound));
      }
    } catch (SQLException cause) {
      throw refused(file, cause.getMessage());
    }
  }

  private static Trouble refused(Path file, String why) {
    return new Trouble.WrongUsage(
        "%s is no saved shelf that can be read (%s). %s".formatted(file, why, CAUSE));
  }

  private static void remove(Path copy) {
    Stream.of("", "-wal", "-shm", "-journal", ".lock")
        .forEach(
            ending -> {
              try {
                Files.deleteIfExists(copy.resolveSibling(copy.getFileName() + ending));
              } catch (IOException left) {
                // A working copy left lying does no harm.
              }
            });
  }
}
