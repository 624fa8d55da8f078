package undersong.desk;

import java.util.List;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import undersong.shelf.ShelfEntry;
import undersong.study.Study;
import undersong.work.Cancellation;

/**
 * Makes ready, one thing at a time, what listeners will ask for next, so that they need not wait:
 * the page of the newest song while the desk starts, and of a song that is opened its decoded sound
 * and what corrections need. What goes wrong is told when somebody asks for it.
 */
final class Warming implements AutoCloseable {
  private static final System.Logger LOG = System.getLogger(Warming.class.getName());
  private static final long LONGEST_GOODBYE_SECONDS = 5;

  /** Until then the page that was just opened has the processors to itself. */
  private static final long AFTER_OPENING_MILLISECONDS = 1_500;

  private final Study study;
  private final Preferences preferences;
  private final Set<Long> readied = ConcurrentHashMap.newKeySet();
  private final Cancellation leaving = new Cancellation();
  private final ScheduledThreadPoolExecutor worker =
      new ScheduledThreadPoolExecutor(
          1,
          task -> {
            Thread thread = new Thread(task, "desk-warming");
            thread.setDaemon(true);
            return thread;
          });

  Warming(Study study, Preferences preferences) {
    this.study = study;
    this.preferences = preferences;
    worker.setExecuteExistingDelayedTasksAfterShutdownPolicy(false);
  }

  /** The song studied last: meanwhile classes are loaded and texts are read. */
  void begin() {
    later(
        0,
        () -> {
          List<ShelfEntry> songs = study.songs("");
          if (!songs.isEmpty()) {
            long newest = songs.get(songs.size() - 1).song().id();
            var unused =
                Json.print(
                    new SongView(study, preferences.remembered())
                        .page(study.reading(newest), Wanted.ALL));
          }
        });
  }

  /** Somebody opened a song: soon it is played, looked at closely and put right. */
  void opened(long song) {
    if (readied.add(song)) {
      later(AFTER_OPENING_MILLISECONDS, () -> study.sound().file(song, leaving));
      later(AFTER_OPENING_MILLISECONDS, () -> study.rehearse(song));
    }
  }

  private void later(long milliseconds, Runnable task) {
    try {
      var unused =
          worker.schedule(
              () -> {
                try {
                  leaving.check();
                  task.run();
                } catch (RuntimeException untold) {
                  LOG.log(System.Logger.Level.DEBUG, "nothing could be made ready", untold);
                }
              },
              milliseconds,
              TimeUnit.MILLISECONDS);
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
