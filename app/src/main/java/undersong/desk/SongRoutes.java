package undersong.desk;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.zip.CRC32;
import undersong.shelf.ShelfEntry;
import undersong.shelf.Song;
import undersong.study.Studied;
import undersong.study.Study;
import undersong.work.Trouble;

/** What is on the shelf, and what is heard in a song. */
final class SongRoutes {
  private static final int LONGEST_WORDS = 300;

  private final Study study;
  private final Events events;
  private final Preferences preferences;
  private final Opening opening;
  private final Pages pages;
  private final Warming warming;

  SongRoutes(
      Study study,
      Events events,
      Preferences preferences,
      Opening opening,
      Pages pages,
      Warming warming) {
    this.study = study;
    this.events = events;
    this.preferences = preferences;
    this.opening = opening;
    this.pages = pages;
    this.warming = warming;
  }

  void addTo(RoutesConfig routes) {
    routes.get("/api/songs", this::list);
    routes.get("/api/songs/{song}", this::page);
    routes.patch("/api/songs/{song}", this::say);
    routes.get("/api/songs/{song}/curve", this::curve);
    routes.get("/api/chord", this::chord);
  }

  private void list(Context request) {
    String query = Optional.ofNullable(request.queryParam("query")).orElse("");
    ObjectNode body = Json.object();
    body.set("songs", Json.array(study.songs(query), SongRoutes::entry));
    Json.send(request, body);
  }

  static ObjectNode entry(ShelfEntry entry) {
    ObjectNode node =
        Json.object()
            .put("id", entry.song().id())
            .put("title", entry.song().title())
            .put("durationSeconds", Json.rounded(entry.song().durationSeconds()))
            .put("tempoBpm", Json.share(entry.tempoBpm()))
            .put("meter", entry.meter())
            .put("key", entry.key())
            .put("studiedAt", entry.song().studiedAt().toString())
            .put("origin", entry.song().origin().word())
            .put("source", entry.song().source());
    entry.song().artist().ifPresent(artist -> node.put("artist", artist));
    entry.song().year().ifPresent(year -> node.put("year", year));
    return node;
  }

  private void page(Context request) {
    long song = Requests.song(request);
    Wanted wanted = Wanted.of(request);
    SongView view = pages.of(request);
    Studied studied = warming.first(() -> opening.song(song));
    byte[] body =
        warming.first(
            () -> Json.print(view.page(studied, wanted)).getBytes(StandardCharsets.UTF_8));
    warming.opened(song);
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

  private void say(Context request) {
    ObjectNode body = Json.body(request);
    long id = Requests.song(request);
    Song.Words before = study.song(id).said();
    Song song =
        study.say(
            id,
            new Song.Words(
                changed(body, "title", before.title()),
                changed(body, "artist", before.artist()),
                year(body, before.year())),
            CorrectionRoutes.author(body, study));
    events.song(id);
    events.tellAll("songs", Json.object());
    Json.send(request, SongView.song(song));
  }

  private static Optional<String> changed(ObjectNode body, String name, Optional<String> before) {
    JsonNode given = body.path(name);
    if (given.isMissingNode()) {
      return before;
    }
    String text = given.isNull() ? "" : given.asText();
    if (!given.isNull() && (!given.isTextual() || text.length() > LONGEST_WORDS)) {
      throw new Trouble.WrongUsage(
          "The %s must be a text of at most %d letters.".formatted(name, LONGEST_WORDS));
    }
    return Optional.of(text);
  }

  private static Optional<Integer> year(ObjectNode body, Optional<Integer> before) {
    JsonNode given = body.path("year");
    if (given.isMissingNode()) {
      return before;
    }
    boolean plain = given.isInt() && given.asInt() >= 1000 && given.asInt() <= 9999;
    if (!given.isNull() && !plain) {
      throw new Trouble.WrongUsage(
          "The year is %s; it must be four digits, or null.".formatted(given));
    }
    return given.isNull() ? Optional.empty() : Optional.of(given.asInt());
  }

  private void curve(Context request) {
    Studied studied = study.reading(Requests.song(request));
    Json.send(
        request, new ReadingView(studied.stored().reading(), preferences.wording(request)).curve());
  }

  private void chord(Context request) {
    Json.send(
        request, ReadingView.typed(Requests.needed(request, "text"), preferences.wording(request)));
  }
}
