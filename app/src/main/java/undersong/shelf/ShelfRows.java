package undersong.shelf;

import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jdbi.v3.core.Handle;

/** The rows of a shelf, carried from one database to another of the same layout. */
final class ShelfRows {
  /** What a table refers to stands before it. The count of changes is each shelf's own. */
  static final List<String> TABLES =
      List.of(
          "song",
          "song_file",
          "song_wording",
          "step",
          "correction",
          "reading",
          "search_line",
          "harmony_line",
          "found",
          "finding",
          "verdict",
          "ranking_reset",
          "remark",
          "remark_wording",
          "hearing",
          "hearing_decision",
          "lesson",
          "lesson_version",
          "memory",
          "arrival",
          "setting",
          "saved_search");

  private static final List<String> NUMBERED =
      List.of(
          "song",
          "song_wording",
          "step",
          "correction",
          "verdict",
          "ranking_reset",
          "remark",
          "remark_wording",
          "hearing",
          "hearing_decision",
          "lesson",
          "arrival");

  /** Readings take hundreds of kilobytes each. */
  private static final int AT_ONCE = 40;

  private ShelfRows() {}

  /** Takes away what an empty shelf may hold: settings, saved searches. */
  static void clear(Handle shelf) {
    for (int i = TABLES.size() - 1; i >= 0; i--) {
      shelf.execute("DELETE FROM " + TABLES.get(i));
    }
  }

  /** Both must be in a transaction. */
  static void copyAll(Handle from, Handle to) {
    try {
      for (String table : TABLES) {
        copy(from, to, table);
      }
    } catch (SQLException failed) {
      throw new IllegalStateException("The shelf could not be copied.", failed);
    }
    // Whoever looked at the other shelf before must look at all of this one.
    to.execute("UPDATE song SET changed = (SELECT changes FROM shelf_state)");
  }

  private static void copy(Handle from, Handle to, String table) throws SQLException {
    try (Statement all = from.getConnection().createStatement()) {
      all.setFetchSize(AT_ONCE);
      try (ResultSet rows = all.executeQuery("SELECT * FROM " + table + " ORDER BY 1")) {
        int columns = rows.getMetaData().getColumnCount();
        StringBuilder names = new StringBuilder();
        for (int column = 1; column <= columns; column++) {
          names.append(column > 1 ? ", " : "").append(rows.getMetaData().getColumnName(column));
        }
        String marks =
            IntStream.range(0, columns).mapToObj(i -> "?").collect(Collectors.joining(", "));
        try (PreparedStatement insert =
            to.getConnection()
                .prepareStatement(
                    "INSERT INTO %s (%s) VALUES (%s)".formatted(table, names, marks))) {
          int waiting = 0;
          while (rows.next()) {
            for (int column = 1; column <= columns; column++) {
              insert.setObject(column, rows.getObject(column));
            }
            insert.addBatch();
            if (++waiting % AT_ONCE == 0) {
              insert.executeBatch();
            }
          }
          insert.executeBatch();
        }
      }
    }
  }

  /** A server numbers what comes next from its own counters, which know nothing of rows brought. */
  static void countOn(Handle server) {
    for (String table : NUMBERED) {
      server
          .createQuery(
              "SELECT setval(pg_get_serial_sequence('%1$s', 'id'), (SELECT coalesce(max(id), 0) + 1 FROM %1$s), false)"
                  .formatted(table))
          .mapTo(Long.class)
          .one();
    }
  }
}
