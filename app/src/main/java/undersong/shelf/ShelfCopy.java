package undersong.shelf;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jdbi.v3.core.Handle;
import undersong.work.Trouble;

/**
 * A whole shelf as one file, and back: songs, what was said of them, readings, lessons. Recordings
 * stay where they are; their paths are in the file.
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
    Path part = beside(file, ".part");
    try {
      Files.createDirectories(file.toAbsolutePath().getParent());
      Files.deleteIfExists(part);
      database.<Object>read(handle -> handle.execute("VACUUM INTO ?", part.toString()));
      try (FileChannel written = FileChannel.open(part, StandardOpenOption.WRITE)) {
        written.force(true);
      }
      Files.move(part, file, StandardCopyOption.ATOMIC_MOVE);
    } catch (IOException cause) {
      throw new Trouble.WrongUsage(
          "The shelf cannot be saved to %s: %s. Maybe the disk is full or the folder is read-only."
              .formatted(file, cause));
    }
  }

  /**
   * Fills an empty shelf from a saved one, in one step: all of it, or nothing.
   *
   * @param place of the shelf that is filled; a working copy lies beside it meanwhile
   */
  static void load(ShelfDatabase database, Path place, Path file) {
    check(file);
    Path copy = beside(place, ".loading");
    try {
      remove(copy);
      Files.copy(file, copy);
      // Opening brings an older layout to today's, on the copy.
      ShelfDatabase.open(copy).close();
      database.<Object>read(
          handle -> {
            handle.execute("ATTACH DATABASE ? AS saved", copy.toString());
            try {
              return handle.inTransaction(ShelfCopy::fill);
            } finally {
              handle.execute("DETACH DATABASE saved");
            }
          });
    } catch (IOException cause) {
      throw new Trouble.WrongUsage("%s cannot be loaded: %s.".formatted(file, cause));
    } finally {
      remove(copy);
    }
  }

  private static Object fill(Handle handle) {
    handle.execute("PRAGMA defer_foreign_keys = ON");
    int songs = handle.createQuery("SELECT count(*) FROM main.song").mapTo(Integer.class).one();
    if (songs > 0) {
      throw new Trouble.WrongUsage(
          "This shelf holds songs already (%d); a saved shelf is loaded into an empty one. Name a new place with --shelf."
              .formatted(songs));
    }
    List<String> tables =
        handle
            .createQuery(
                "SELECT name FROM main.sqlite_schema WHERE type = 'table'"
                    + " AND name NOT LIKE 'sqlite_%' AND name NOT LIKE 'flyway_%'")
            .mapTo(String.class)
            .list();
    tables.forEach(table -> handle.execute("DELETE FROM main." + table));
    for (String table : tables) {
      String columns =
          handle
              .createQuery("SELECT name FROM pragma_table_info(:table)")
              .bind("table", table)
              .mapTo(String.class)
              .stream()
              .collect(Collectors.joining(", "));
      handle.execute(
          "INSERT INTO main.%1$s (%2$s) SELECT %2$s FROM saved.%1$s".formatted(table, columns));
    }
    return tables;
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

  private static Path beside(Path file, String ending) {
    return file.toAbsolutePath().resolveSibling(file.getFileName() + ending);
  }

  private static void remove(Path copy) {
    Stream.of("", "-wal", "-shm", "-journal", ".lock")
        .forEach(
            ending -> {
              try {
                Files.deleteIfExists(copy.resolveSibling(copy.getFileName() + ending));
              } catch (IOException left) {
                // A working copy left lying does no harm, and is removed at the next loading.
              }
            });
  }
}
