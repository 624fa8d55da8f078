package undersong.shelf;

import org.jdbi.v3.core.ConnectionException;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.HandleCallback;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.transaction.TransactionIsolationLevel;
import undersong.work.Trouble;

/**
 * What keeps the shelf, read and written alike whether it is a file or a server. One change is
 * written at a time, also by several programs.
 */
final class ShelfDatabase implements AutoCloseable {
  /** The layout this program reads and writes: the number of its last migration. */
  static final int LAYOUT = 13;

  /** A server would send all rows of an answer at once, however many. */
  static final int ROWS_AT_ONCE = 1000;

  private final Jdbi jdbi;
  private final ShelfPlace place;
  private final String desk;
  private final Runnable closing;

  /**
   * @param desk by which a server tells this machine from the others that share the shelf; "" for a
   *     file
   */
  ShelfDatabase(Jdbi jdbi, ShelfPlace place, String desk, Runnable closing) {
    this.jdbi = jdbi;
    this.place = place;
    this.desk = desk;
    this.closing = closing;
  }

  /** Opens it, brought to this program's layout; lays out a new one where there is none. */
  static ShelfDatabase open(ShelfPlace place) {
    return place instanceof ShelfPlace.Server server
        ? ServerOpening.open(server)
        : FileOpening.open(((ShelfPlace.OwnFile) place).file());
  }

  ShelfPlace place() {
    return place;
  }

  String desk() {
    return desk;
  }

  boolean isServer() {
    return place instanceof ShelfPlace.Server;
  }

  /** Reads on a connection of its own. */
  <R> R read(HandleCallback<R, RuntimeException> work) {
    return reached(() -> jdbi.withHandle(work));
  }

  /** Reads all of it as it stands at one moment, while others write. */
  <R> R readAtOnce(HandleCallback<R, RuntimeException> work) {
    return reached(
        () ->
            isServer()
                ? jdbi.inTransaction(TransactionIsolationLevel.REPEATABLE_READ, work)
                : jdbi.withHandle(
                    handle -> {
                      FileOpening.readOnly(handle);
                      return handle.inTransaction(work);
                    }));
  }

  /**
   * Runs as one transaction: all of it, or nothing. Its first act raises the count of changes, a
   * single row, so that whoever else wants to write waits here until it is over.
   */
  <R> R write(HandleCallback<R, RuntimeException> work) {
    return reached(
        () ->
            jdbi.inTransaction(
                handle -> {
                  handle.execute("UPDATE shelf_state SET changes = changes + 1");
                  return work.withHandle(handle);
                }));
  }

  long sizeBytes() {
    String sql =
        isServer()
            ? "SELECT pg_database_size(current_database())"
            : "SELECT page_count * page_size FROM pragma_page_count(), pragma_page_size()";
    return read(handle -> handle.createQuery(sql).mapTo(Long.class).one());
  }

  /** How often the shelf was changed; equal numbers, equal shelf. */
  static long changes(Handle handle) {
    return handle.createQuery("SELECT changes FROM shelf_state").mapTo(Long.class).one();
  }

  private <R> R reached(java.util.function.Supplier<R> work) {
    try {
      return work.get();
    } catch (ConnectionException gone) {
      throw new Trouble.WrongUsage(
          "The shelf at %s cannot be reached now: %s. Maybe the server or the network is down; nothing was changed."
              .formatted(place, reason(gone)));
    }
  }

  /** What the driver said, which is told beneath two layers of wrapping. */
  static String reason(Throwable failure) {
    Throwable root = failure;
    while (root.getCause() != null) {
      root = root.getCause();
    }
    return String.valueOf(root.getMessage()).strip();
  }

  @Override
  public void close() {
    closing.run();
  }
}
