package undersong.desk;

import java.util.List;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.TimeUnit;
import undersong.shelf.ShelfEntry;
import undersong.study.Study;
import undersong.work.Cancellation;

/**
 * Makes ready, one thing at a time, what listeners will ask for next, so that they need not wait:
 * the page of the newest song while the desk starts, and the decoded sound of a song that is
 * opened. What goes wrong is told when somebody asks for it.
 */
final class Warming implements AutoCloseable {
  private static final System.Logger LOG = System.getLogger(Warming.class.getName());
  private static final long LONGEST_GOODBYE_SECONDS = 5;

  private final Study study;
  private final Preferences preferences;
  private final Set<Long> decoded = ConcurrentHashMap.newKeySet();
  private final Cancellation leaving = new Cancellation();
  private final ExecutorService worker =
      Executors.newSingleThreadExecutor(
          task -> {
            Thread thread = new Thread(task, "desk-warming");
            thread.setDaemon(true);
            return thread;
          });

  Warming(Study study, Preferences preferences) {
    this.study = study;
    this.preferences = preferences;
  }

  /** The song studied last: meanwhile classes are loaded and texts are read. */
  void begin() {
    later(
        () -> {
          List<ShelfEntry> songs = study.songs("");
          if (!songs.isEmpty()) {
            long newest = songs.get(songs.size() - 1).song().id();
            var unused =
                Json.print(
                    new SongView(study, preferences.remembered()).page(study.reading(newest)));
          }
        });
  }

  /** Somebody opened a song: soon it is played and looked at closely. */
  void opened(long song) {
    if (decoded.add(song)) {
      later(() -> study.sound().file(song, leaving));
    }
  }

  private void later(Runnable task) {
    try {
      worker.execute(
          () -> {
            try {
              leaving.check();
              task.run();
            } catch (RuntimeException untold) {
              LOG.log(System.Logger.Level.DEBUG, "nothing could be made ready", untold);
            }
          });
    } catch (RejectedExecutionException closing) {
      // Nobody will ask any more.
    }
  }

  /** Ends what is going on, and waits a while for that: the study is closed next. */
  @Override
  public void close() {
    leaving.cancel();
    worker.shutdown();
    try {
      if (!worker.awaitTermination(LONGEST_GOODBYE_SECONDS, TimeUnit.SECONDS)) {
        LOG.log(System.Logger.Level.WARNING, "what was being made ready is left unfinished");
      }
    } catch (InterruptedException told) {
      Thread.currentThread().interrupt();
    }
  }
}
