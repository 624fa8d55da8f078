package undersong.desk;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Supplier;
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

  /** Rehearsed words after which the program answers as fast as it ever will, or nearly. */
  private static final int ROUNDS = 8;

  private static final long MEANWHILE_MILLISECONDS = 200;

  private static final String OPENED = "desk.opened";

  /** What is drawn before anything else. */
  private static final Wanted ROWS =
      new Wanted(
          Optional.of(
              Set.of("song", "settings", "facts", "beats", "bars", "sections", "keys", "chords")),
          Map.of());

  private final Study study;
  private final Preferences preferences;
  private final Opening opening;
  private final Pages pages;
  private final AtomicInteger rounds = new AtomicInteger();
  private final AtomicInteger answering = new AtomicInteger();
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

  Warming(Study study, Preferences preferences, Opening opening, Pages pages) {
    this.study = study;
    this.preferences = preferences;
    this.opening = opening;
    this.pages = pages;
    worker.setExecuteExistingDelayedTasksAfterShutdownPolicy(false);
  }

  /**
   * The song opened last, or else the one studied last: meanwhile classes are loaded and texts are
   * read. In steps, between which whoever asks already goes first.
   */
  void begin() {
    later(
        0,
        () ->
            likeliest()
                .ifPresent(
                    song -> {
                      later(0, () -> opening.song(song));
                      later(0, () -> print(song, ROWS));
                      later(0, () -> print(song, Wanted.ALL));
                    }));
  }

  private OptionalLong likeliest() {
    List<Long> songs = study.songs("").stream().map(entry -> entry.song().id()).toList();
    Optional<Long> opened = study.setting(OPENED).map(Long::valueOf).filter(songs::contains);
    return songs.isEmpty()
        ? OptionalLong.empty()
        : OptionalLong.of(opened.orElse(songs.get(songs.size() - 1)));
  }

  private void print(long song, Wanted wanted) {
    var unused = Json.print(pages.remembered().page(opening.song(song), wanted));
  }

  /** Somebody opened a song: soon it is played, looked at closely and put right. */
  void opened(long song) {
    if (readied.add(song)) {
      later(AFTER_OPENING_MILLISECONDS, () -> study.set(OPENED, Long.toString(song)));
      later(AFTER_OPENING_MILLISECONDS, () -> study.sound().file(song, leaving));
      later(AFTER_OPENING_MILLISECONDS, () -> rehearse(song));
    }
  }

  /** Once for each song, and for the first until the program is quick. */
  private void rehearse(long song) {
    // What is rehearsed shall not take the room of what is read.
    SongView nobodys = new Pages(study, preferences).remembered();
    study
        .rehearse(song, rounds.getAndIncrement())
        .map(answer -> nobodys.answer(study.song(song), answer, Wanted.ALL))
        .ifPresent(Json::print);
    if (rounds.get() < ROUNDS) {
      later(0, () -> rehearse(song));
    }
  }

  /** While a listener waits for an answer, nothing else is begun. */
  <T> T first(Supplier<T> answer) {
    answering.incrementAndGet();
    try {
      return answer.get();
    } finally {
      answering.decrementAndGet();
    }
  }

  private void later(long milliseconds, Runnable task) {
    try {
      var unused =
          worker.schedule(
              () -> {
                if (answering.get() > 0) {
                  later(MEANWHILE_MILLISECONDS, task);
                  return;
                }
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
