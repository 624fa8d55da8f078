package undersong.shelf;

import com.zaxxer.hikari.HikariConfig;
import com.zaxxer.hikari.HikariDataSource;
import com.zaxxer.hikari.pool.HikariPool.PoolInitializationException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.SQLException;
import java.util.UUID;
import javax.sql.DataSource;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.jdbi.v3.core.Jdbi;
import undersong.work.Trouble;

/** Opens a shelf in a database on a PostgreSQL server, brought to the newest layout. */
final class ServerOpening {
  private static final int CONNECTIONS = 6;
  private static final long WAIT_MILLISECONDS = 10_000;

  private ServerOpening() {}

  static ShelfDatabase open(ShelfPlace.Server place) {
    HikariDataSource source = null;
    try {
      String desk = desk(place.folder());
      source = new HikariDataSource(config(place));
      if (layout(source) != ShelfDatabase.LAYOUT) {
        migrate(source);
      }
      return new ShelfDatabase(Jdbi.create(source), place, desk, source::close);
    } catch (IOException | SQLException | FlywayException | PoolInitializationException refused) {
      if (source != null) {
        source.close();
      }
      throw new Trouble.WrongUsage(
          """
          The shelf at %s cannot be opened: %s
          It must be a database of this program or an empty one that user "%s" may lay out. Maybe the server \
          cannot be reached, user or password are others, or a newer program wrote the shelf.\
          """
              .formatted(place, ShelfDatabase.reason(refused), place.user()));
    }
  }

  private static HikariConfig config(ShelfPlace.Server place) {
    HikariConfig config = new HikariConfig();
    config.setPoolName("shelf");
    config.setJdbcUrl(place.jdbcUrl());
    if (!place.user().isEmpty()) {
      config.setUsername(place.user());
    }
    if (!place.password().isEmpty()) {
      config.setPassword(place.password());
    }
    config.setMaximumPoolSize(CONNECTIONS);
    config.setMinimumIdle(1);
    config.setConnectionTimeout(WAIT_MILLISECONDS);
    config.setInitializationFailTimeout(WAIT_MILLISECONDS);
    config.addDataSourceProperty("ApplicationName", "undersong");
    // Who waits longer than this for another's change is told so.
    config.setConnectionInitSql("SET lock_timeout = '20s'");
    return config;
  }

  private static int layout(DataSource source) throws SQLException {
    try (var connection = source.getConnection();
        var statement = connection.createStatement()) {
      try (var there = statement.executeQuery("SELECT to_regclass('flyway_schema_history')")) {
        there.next();
        if (there.getString(1) == null) {
          return 0;
        }
      }
      try (var answer =
          statement.executeQuery(
              "SELECT max(version::integer) FROM flyway_schema_history WHERE success")) {
        return answer.next() ? answer.getInt(1) : 0;
      }
    }
  }

  /** Two programs that open a new shelf at once wait for each other: the tool takes a lock. */
  private static void migrate(DataSource source) {
    Flyway.configure()
        .dataSource(source)
        .locations("classpath:undersong/shelf/postgresql")
        .ignoreMigrationPatterns(new String[0])
        .load()
        .migrate();
  }

  /** By this the shelf tells one machine's files from another's; made once, kept in its folder. */
  private static String desk(Path folder) throws IOException {
    Path file = folder.resolve("desk-id");
    if (!Files.exists(file)) {
      Files.createDirectories(folder);
      Path fresh = Files.createTempFile(folder, "desk-id", ".part");
      Files.writeString(fresh, UUID.randomUUID().toString());
      try {
        Files.createLink(file, fresh);
      } catch (IOException | UnsupportedOperationException thereOrNoLinks) {
        if (!Files.exists(file)) {
          Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE);
        }
      }
      Files.deleteIfExists(fresh);
    }
    return Files.readString(file).strip();
  }
}
