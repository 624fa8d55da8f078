package undersong.desk;

import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.sse.SseClient;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import undersong.shelf.ChangedSongs;
import undersong.study.Study;

/**
 * Tells every window what changed. What another program says on the same shelf is noticed by
 * looking, every second or so while somebody listens.
 */
final class Events implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Events.class);
  private static final long LOOK_MILLISECONDS = 1_500;
  private static final long COMMENT_MILLISECONDS = 15_000;

  private final Study study;
  private final Set<SseClient> windows = ConcurrentHashMap.newKeySet();

  /**
   * One thread tells, so that windows hear things in the order they happened. Once the desk closes
   * nobody is left to tell, and what was said is kept all the same.
   */
  private final ScheduledExecutorService teller =
      new ScheduledThreadPoolExecutor(
          1,
          work -> {
            Thread thread = new Thread(work, "desk-events");
            thread.setDaemon(true);
            return thread;
          },
          new ThreadPoolExecutor.DiscardPolicy());

  /** The change of each song that was told last, so that nothing is told twice. */
  private final Map<Long, Long> told = new HashMap<>();

  private long seen;
  private long newestSong;

  Events(Study study) {
    this.study = study;
  }

  void addTo(RoutesConfig routes) {
    routes.sse(
        "/api/events",
        window -> {
          window.keepAlive();
          window.onClose(() -> windows.remove(window));
          windows.add(window);
          window.sendComment("listening");
        });
  }

  void start() {
    ChangedSongs all = study.changedSince(0);
    seen = all.changes();
    newestSong = all.songs().keySet().stream().mapToLong(id -> id).max().orElse(0);
    repeat(this::look, LOOK_MILLISECONDS);
    repeat(() -> windows.forEach(window -> window.sendComment("still here")), COMMENT_MILLISECONDS);
  }

  private void repeat(Runnable work, long everyMilliseconds) {
    var unused =
        teller.scheduleWithFixedDelay(
            work, everyMilliseconds, everyMilliseconds, TimeUnit.MILLISECONDS);
  }

  /** A song's reading, words, remarks or hearings changed. */
  void song(long songId) {
    Optional<ChangedSongs.Change> change = study.lastChange(songId);
    teller.execute(() -> change.ifPresent(last -> tellSong(songId, last)));
  }

  void tellAll(String event, JsonNode data) {
    teller.execute(() -> tell(event, data));
  }

  private void look() {
    if (windows.isEmpty()) {
      return;
    }
    try {
      ChangedSongs now = study.changedSince(seen);
      long newest = now.songs().keySet().stream().mapToLong(id -> id).max().orElse(0);
      if (newest > newestSong) {
        newestSong = newest;
        tell("songs", Json.object());
      }
      now.songs()
          .forEach(
              (song, change) -> {
                if (change.change() > told.getOrDefault(song, 0L)) {
                  tellSong(song, change);
                }
              });
      seen = now.changes();
      told.values().removeIf(change -> change <= seen);
    } catch (RuntimeException failure) {
      // An escaping exception would end the looking for good.
      LOG.warn("The shelf could not be looked at: {}", failure.toString());
    }
  }

  private void tellSong(long songId, ChangedSongs.Change change) {
    told.merge(songId, change.change(), Math::max);
    tell("song", Json.object().put("song", songId).put("revision", change.revision()));
  }

  private void tell(String event, JsonNode data) {
    String text = Json.print(data);
    windows.forEach(window -> window.sendEvent(event, text));
  }

  @Override
  public void close() {
    teller.shutdownNow();
    windows.forEach(SseClient::close);
  }
}
