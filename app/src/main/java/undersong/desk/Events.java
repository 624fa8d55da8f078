package undersong.desk;

import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.sse.SseClient;
import java.util.HashMap;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
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

  /** One thread tells, so that windows hear things in the order they happened. */
  private final ScheduledExecutorService teller =
      Executors.newSingleThreadScheduledExecutor(
          work -> {
            Thread thread = new Thread(work, "desk-events");
            thread.setDaemon(true);
            return thread;
          });

  private final Map<Long, Integer> told = new HashMap<>();

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
    told.putAll(study.revisions());
    repeat(this::look, LOOK_MILLISECONDS);
    repeat(() -> windows.forEach(window -> window.sendComment("still here")), COMMENT_MILLISECONDS);
  }

  private void repeat(Runnable work, long everyMilliseconds) {
    var unused =
        teller.scheduleWithFixedDelay(
            work, everyMilliseconds, everyMilliseconds, TimeUnit.MILLISECONDS);
  }

  /** A song's reading, words, remarks or hearings changed. */
  void song(long songId, int revision) {
    teller.execute(
        () -> {
          told.put(songId, revision);
          tell("song", Json.object().put("song", songId).put("revision", revision));
        });
  }

  void tellAll(String event, JsonNode data) {
    teller.execute(() -> tell(event, data));
  }

  private void look() {
    if (windows.isEmpty()) {
      return;
    }
    try {
      Map<Long, Integer> now = study.revisions();
      if (!now.keySet().equals(told.keySet())) {
        tell("songs", Json.object());
      }
      now.forEach(
          (song, revision) -> {
            if (!revision.equals(told.get(song))) {
              tell("song", Json.object().put("song", song).put("revision", revision));
            }
          });
      told.clear();
      told.putAll(now);
    } catch (RuntimeException failure) {
      // An escaping exception would end the looking for good.
      LOG.warn("The shelf could not be looked at: {}", failure.toString());
    }
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
