package undersong.desk;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.List;
import java.util.function.LongFunction;
import undersong.reading.Correction;
import undersong.study.Answer;
import undersong.study.Speaker;
import undersong.study.Study;
import undersong.work.Trouble;

/** The one door for what a listener says against a reading, opened to HTTP. */
final class CorrectionRoutes {
  private static final int MOST_AT_ONCE = 2000;

  private final Study study;
  private final Events events;
  private final Pages pages;
  private final Warming warming;

  CorrectionRoutes(Study study, Events events, Pages pages, Warming warming) {
    this.study = study;
    this.events = events;
    this.pages = pages;
    this.warming = warming;
  }

  void addTo(RoutesConfig routes) {
    routes.post("/api/songs/{song}/corrections", this::correct);
    routes.post("/api/songs/{song}/offers", this::offers);
    routes.post(
        "/api/songs/{song}/undo",
        request -> answer(request, song -> study.undo(song, Requests.seenRevision(request))));
    routes.post(
        "/api/songs/{song}/redo",
        request -> answer(request, song -> study.redo(song, Requests.seenRevision(request))));
    routes.post(
        "/api/songs/{song}/steps/{step}/take-back",
        request -> answer(request, song -> study.takeBack(song, Requests.number(request, "step"))));
    routes.post(
        "/api/songs/{song}/steps/{step}/bring-back",
        request ->
            answer(request, song -> study.bringBack(song, Requests.number(request, "step"))));
  }

  private void correct(Context request) {
    ObjectNode body = Json.body(request);
    List<Correction> batch = new ArrayList<>();
    for (JsonNode correction : body.path("corrections")) {
      batch.add(CorrectionJson.parse(correction));
    }
    if (batch.isEmpty() || batch.size() > MOST_AT_ONCE) {
      throw new Trouble.WrongUsage(
          "\"corrections\" must list 1 to %d corrections; it lists %d."
              .formatted(MOST_AT_ONCE, batch.size()));
    }
    answer(
        request,
        song -> study.correct(song, batch, author(body, study), Requests.seenRevision(request)));
  }

  private void offers(Context request) {
    Correction correction = CorrectionJson.parse(Json.body(request).path("correction"));
    SongView view = pages.of(request);
    ObjectNode body = Json.object();
    body.set("offers", Json.array(study.offers(Requests.song(request), correction), view::offer));
    Json.send(request, body);
  }

  /** Whatever could be wrong with the request is read before the word is kept. */
  private void answer(Context request, LongFunction<Answer> say) {
    long song = Requests.song(request);
    Wanted wanted = Wanted.of(request);
    SongView view = pages.of(request);
    ObjectNode answer =
        warming.first(
            () -> {
              Answer said = say.apply(song);
              events.song(song);
              return view.answer(study.song(song), said, wanted);
            });
    Json.send(request, answer);
  }

  /** Who says so: the name in the body, else whoever speaks at this desk. */
  static String author(ObjectNode body, Study study) {
    JsonNode author = body.path("author");
    return author.isMissingNode() ? study.speaker().name() : Speaker.checked(author.asText());
  }
}
