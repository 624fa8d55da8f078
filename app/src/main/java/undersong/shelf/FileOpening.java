package undersong.shelf;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.sql.DriverManager;
import java.sql.SQLException;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteConnection;
import org.sqlite.SQLiteDataSource;
import undersong.work.Trouble;

/** Opens a shelf in an SQLite file, brought to the newest layout. */
final class FileOpening {
  private static final int BUSY_MILLISECONDS = 20_000;
  private static final Object MIGRATING = new Object();

  private FileOpening() {}

  static ShelfDatabase open(Path file) {
    try {
      Path folder = file.toAbsolutePath().getParent();
      Files.createDirectories(folder);
      SQLiteDataSource source = source(file);
      // Looking is quick; the tool that migrates takes a second to start.
      if (layout(source) != ShelfDatabase.LAYOUT) {
        migrate(source, folder.resolve(file.getFileName() + ".lock"));
      }
      Jdbi jdbi = Jdbi.create(source);
      // Keeps the write-ahead log alive between calls; folding it back each time costs a disk wait.
      Handle keepOpen = jdbi.open();
      return new ShelfDatabase(jdbi, ShelfPlace.ofFile(file), "", keepOpen::close);
    } catch (IOException | SQLException | FlywayException refused) {
      throw new Trouble.WrongUsage(
          """
          The shelf at %s cannot be opened: %s
          It must be a shelf of this program or a place where a new one can be written. \
          Maybe the path is another kind of file, a newer program wrote it, or the folder is \
          read-only.\
          """
              .formatted(file, String.valueOf(refused.getMessage()).strip()));
    }
  }

  /** The next transaction will not ask for the write lock, so that others go on writing. */
  static void readOnly(Handle handle) {
    try {
      handle
          .getConnection()
          .unwrap(SQLiteConnection.class)
          .setCurrentTransactionMode(SQLiteConfig.TransactionMode.DEFERRED);
    } catch (SQLException bug) {
      throw new IllegalStateException("A file's connection is SQLite's.", bug);
    }
  }

  /**
   * Folds the write-ahead log into a file that nobody has open, so that it can be carried alone.
   */
  static void makeSingleFile(Path file) throws SQLException {
    try (var connection = DriverManager.getConnection("jdbc:sqlite:" + file.toAbsolutePath());
        var statement = connection.createStatement()) {
      statement.execute("PRAGMA journal_mode = DELETE");
    }
  }

  private static int layout(SQLiteDataSource source) throws SQLException {
    try (var connection = source.getConnection();
        var statement = connection.createStatement();
        var answer = statement.executeQuery("PRAGMA user_version")) {
      return answer.next() ? answer.getInt(1) : 0;
    }
  }

  private static SQLiteDataSource source(Path file) {
    SQLiteConfig config = new SQLiteConfig();
    config.setJournalMode(SQLiteConfig.JournalMode.WAL);
    // What was said must outlive a power cut, not only a killed program.
    config.setSynchronous(SQLiteConfig.SynchronousMode.FULL);
    config.enforceForeignKeys(true);
    config.setBusyTimeout(BUSY_MILLISECONDS);
    config.setTransactionMode(SQLiteConfig.TransactionMode.IMMEDIATE);
    SQLiteDataSource source = new SQLiteDataSource(config);
    source.setUrl("jdbc:sqlite:" + file.toAbsolutePath());
    return source;
  }

  /** Two programs that open a new shelf at once must not lay it out twice. */
  private static void migrate(SQLiteDataSource source, Path lockFile) throws IOException {
    synchronized (MIGRATING) {
      try (FileChannel channel =
          FileChannel.open(lockFile, StandardOpenOption.CREATE, StandardOpenOption.WRITE)) {
        channel.lock(); // let go when the channel closes
        Flyway.configure()
            .dataSource(source)
            .locations("classpath:undersong/shelf/sqlite")
            .ignoreMigrationPatterns(new String[0])
            .load()
            .migrate();
      }
    }
  }
}
