package undersong.desk;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpResponseException;
import io.javalin.util.JavalinBindException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import undersong.work.Trouble;

/** What went wrong, as a state of HTTP and words for people. */
final class Failures {
  private static final Logger LOG = LoggerFactory.getLogger(Failures.class);

  private Failures() {}

  static void addTo(RoutesConfig routes) {
    routes.exception(Gate.Refused.class, (refused, answer) -> say(answer, 403, "refused", refused));
    routes.exception(
        Requests.BeyondTheEnd.class, (beyond, answer) -> say(answer, 416, "range", beyond));
    routes.exception(
        Trouble.WrongUsage.class, (wrong, answer) -> say(answer, 400, "wrong-usage", wrong));
    routes.exception(
        Trouble.NotOnShelf.class, (none, answer) -> say(answer, 404, "not-found", none));
    routes.exception(
        Trouble.UnreadableRecording.class,
        (broken, answer) -> say(answer, 422, "unreadable", broken));
    routes.exception(
        Trouble.MovedOn.class,
        (late, answer) -> {
          ObjectNode body = body("moved-on", late);
          body.put("revision", late.revision());
          send(answer, 412, body);
        });
    routes.exception(HttpResponseException.class, Failures::ofServer);
    routes.exception(
        Exception.class,
        (bug, answer) -> {
          LOG.error("{} {} failed", answer.method(), answer.path(), bug);
          say(
              answer,
              500,
              "inside",
              new IllegalStateException(
                  "Something failed inside; this is a mistake in the program. Its words stand"
                      + " where the desk was started."));
        });
  }

  private static void ofServer(HttpResponseException failure, Context answer) {
    int status = failure.getStatus();
    String kind = status == 404 ? "not-found" : status == 413 ? "too-large" : "wrong-usage";
    send(answer, status, body(kind, failure));
  }

  /** Runs what binds the port. */
  static void usable(int port, Runnable start) {
    try {
      start.run();
    } catch (JavalinBindException taken) {
      throw new Trouble.WrongUsage(
          """
          The desk cannot listen on port %d of 127.0.0.1. It must be free and one this user may \
          take. Maybe a desk is running already; --port 0 takes any free one."""
              .formatted(port));
    }
  }

  private static void say(Context answer, int status, String kind, Exception failure) {
    send(answer, status, body(kind, failure));
  }

  private static void send(Context answer, int status, ObjectNode body) {
    answer.header("Cache-Control", "no-store");
    Json.send(answer.status(status), body);
  }

  private static ObjectNode body(String kind, Exception failure) {
    return Json.object().put("error", String.valueOf(failure.getMessage())).put("kind", kind);
  }
}
