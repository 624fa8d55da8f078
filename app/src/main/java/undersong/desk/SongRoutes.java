package undersong.desk;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.zip.CRC32;
import undersong.shelf.ShelfEntry;
import undersong.study.Studied;
import undersong.study.Study;

/** What is on the shelf, and what is heard in a song. */
final class SongRoutes {
  private final Study study;

  SongRoutes(Study study) {
    this.study = study;
  }

  void addTo(RoutesConfig routes) {
    routes.get("/api/songs", this::list);
    routes.get("/api/songs/{song}", this::page);
    routes.get("/api/songs/{song}/curve", this::curve);
    routes.get("/api/chord", this::chord);
  }

  private void list(Context request) {
    String query = Optional.ofNullable(request.queryParam("query")).orElse("");
    ObjectNode body = Json.object();
    body.set("songs", Json.array(study.songs(query), SongRoutes::entry));
    Json.send(request, body);
  }

  private static ObjectNode entry(ShelfEntry entry) {
    ObjectNode node =
        Json.object()
            .put("id", entry.song().id())
            .put("title", entry.song().title())
            .put("durationSeconds", Json.rounded(entry.song().durationSeconds()))
            .put("tempoBpm", Json.share(entry.tempoBpm()))
            .put("meter", entry.meter())
            .put("key", entry.key())
            .put("studiedAt", entry.song().studiedAt().toString());
    entry.song().artist().ifPresent(artist -> node.put("artist", artist));
    entry.song().year().ifPresent(year -> node.put("year", year));
    return node;
  }

  private void page(Context request) {
    Studied studied = study.reading(Requests.song(request));
    ObjectNode page = new SongView(study, Requests.wording(request)).page(studied);
    byte[] body = Json.print(page).getBytes(StandardCharsets.UTF_8);
    CRC32 sum = new CRC32();
    sum.update(body);
    String tag = "\"%d-%08x\"".formatted(studied.stored().revision(), sum.getValue());
    request.header("ETag", tag);
    request.header("Cache-Control", "private, no-cache");
    if (tag.equals(request.header("If-None-Match"))) {
      request.status(304);
      return;
    }
    request.contentType("application/json").result(body);
  }

  private void curve(Context request) {
    Studied studied = study.reading(Requests.song(request));
    Json.send(
        request, new ReadingView(studied.stored().reading(), Requests.wording(request)).curve());
  }

  private void chord(Context request) {
    Json.send(
        request, ReadingView.typed(Requests.needed(request, "text"), Requests.wording(request)));
  }
}
