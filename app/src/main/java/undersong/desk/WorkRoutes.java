package undersong.desk;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.ContentTooLargeResponse;
import io.javalin.http.Context;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import undersong.shelf.Arrival;
import undersong.study.BringingIn;
import undersong.study.BringingIn.Step;
import undersong.study.Study;

/** Recordings that are brought in: uploads, the queue, progress. */
final class WorkRoutes implements AutoCloseable {
  private static final long LARGEST_BYTES = 2L << 30;
  private static final long LONGEST_MILLISECONDS = 15 * 60_000L;
  private static final long TELL_EVERY_NANOSECONDS = 200_000_000L;

  private final BringingIn bringingIn;
  private final Events events;

  /** What was told last of each arrival, and when. */
  private final Map<Long, Told> told = new ConcurrentHashMap<>();

  WorkRoutes(Study study, Events events) {
    this.events = events;
    this.bringingIn = study.bringingIn(this::tell);
  }

  private record Told(String stage, long atNanoseconds) {}

  void addTo(RoutesConfig routes) {
    routes.post("/api/uploads", this::upload);
    routes.get(
        "/api/work",
        request -> {
          ObjectNode body = Json.object();
          body.set("work", Json.array(bringingIn.list(), WorkRoutes::step));
          Json.send(request, body);
        });
    routes.delete(
        "/api/work/{work}",
        request -> {
          bringingIn.cancel(Requests.number(request, "work"));
          request.status(204);
        });
  }

  private void upload(Context request) {
    String name = Requests.needed(request, "name");
    if (request.req().getContentLengthLong() > LARGEST_BYTES) {
      throw new ContentTooLargeResponse(UploadStream.tooLarge(LARGEST_BYTES));
    }
    Step step =
        bringingIn.receive(
            name, new UploadStream(request.bodyInputStream(), LARGEST_BYTES, LONGEST_MILLISECONDS));
    Json.send(request.status(202), step(step));
  }

  /** Every stage is told, and a few times a second how far it has come. */
  private void tell(Step step) {
    Arrival arrival = step.arrival();
    long now = System.nanoTime();
    Told before = told.get(arrival.id());
    boolean news =
        before == null
            || arrival.state().ended()
            || !before.stage().equals(step.stage())
            || now - before.atNanoseconds() > TELL_EVERY_NANOSECONDS;
    if (news) {
      told.put(arrival.id(), new Told(step.stage(), now));
      events.tellAll("work", step(step));
    }
    if (arrival.state().ended()) {
      told.remove(arrival.id());
      if (arrival.state() == Arrival.State.DONE) {
        events.tellAll("songs", Json.object());
      }
    }
  }

  private static ObjectNode step(Step step) {
    Arrival arrival = step.arrival();
    ObjectNode node =
        Json.object()
            .put("id", arrival.id())
            .put("name", arrival.name())
            .put("state", arrival.state().name().toLowerCase(Locale.ROOT));
    if (!step.stage().isEmpty()) {
      node.put("stage", step.stage()).put("share", Json.share(step.share()));
    }
    arrival.songId().ifPresent(song -> node.put("song", song));
    if (arrival.state() == Arrival.State.FAILED) {
      node.put("error", arrival.message());
    }
    return node;
  }

  @Override
  public void close() {
    bringingIn.close();
  }
}
