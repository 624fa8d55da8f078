package undersong.desk;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.List;
import java.util.OptionalDouble;
import undersong.reading.Keys;
import undersong.shelf.Hearing;
import undersong.shelf.Remark;
import undersong.shelf.Verdict;
import undersong.study.Study;
import undersong.technique.Finding;
import undersong.work.Trouble;

/** Remarks, what listeners heard for themselves, and verdicts on findings. */
final class NoteRoutes {
  private static final Keys KEYLESS = new Keys(List.of());
  private static final double SAME_PLACE_SECONDS = 0.001;

  private final Study study;
  private final Events events;
  private final Preferences preferences;
  private final Pages pages;

  NoteRoutes(Study study, Events events, Preferences preferences, Pages pages) {
    this.study = study;
    this.events = events;
    this.preferences = preferences;
    this.pages = pages;
  }

  void addTo(RoutesConfig routes) {
    routes.post("/api/songs/{song}/remarks", this::remark);
    routes.put("/api/songs/{song}/remarks/{remark}", this::reword);
    routes.delete("/api/songs/{song}/remarks/{remark}", this::takeAwayRemark);
    routes.get("/api/songs/{song}/hearings", this::hearings);
    routes.post("/api/songs/{song}/hearings", this::hear);
    routes.post("/api/songs/{song}/hearings/{hearing}/decision", this::decide);
    routes.delete("/api/songs/{song}/hearings/{hearing}", this::takeAwayHearing);
    routes.post("/api/songs/{song}/verdicts", this::judge);
    routes.delete("/api/songs/{song}/verdicts/{verdict}", this::takeBackVerdict);
    routes.post("/api/ranking/reset", this::resetRanking);
  }

  private void remark(Context request) {
    ObjectNode body = Json.body(request);
    long song = Requests.song(request);
    Remark remark =
        study
            .notebook()
            .remark(song, CorrectionRoutes.author(body, study), start(body), end(body), text(body));
    changed(song);
    Json.send(request.status(201), NoteView.remark(remark));
  }

  private void reword(Context request) {
    ObjectNode body = Json.body(request);
    long song = Requests.song(request);
    long id = Requests.number(request, "remark");
    Remark remark =
        study
            .notebook()
            .reword(
                song, id, CorrectionRoutes.author(body, study), start(body), end(body), text(body));
    changed(song);
    Json.send(request, NoteView.remark(remark));
  }

  private void takeAwayRemark(Context request) {
    long song = Requests.song(request);
    study.notebook().takeAwayRemark(song, Requests.number(request, "remark"));
    changed(song);
    request.status(204);
  }

  private void hearings(Context request) {
    ObjectNode body = Json.object();
    SongView view = pages.of(request);
    body.set("hearings", view.hearings(study.reading(Requests.song(request))));
    Json.send(request, body);
  }

  private void hear(Context request) {
    ObjectNode body = Json.body(request);
    long song = Requests.song(request);
    Hearing hearing =
        study
            .notebook()
            .hear(
                song,
                CorrectionRoutes.author(body, study),
                CorrectionJson.parse(body.path("heard")));
    changed(song);
    NoteView view = new NoteView(preferences.wording(request), KEYLESS);
    Json.send(request.status(201), view.hearing(hearing));
  }

  private void decide(Context request) {
    long song = Requests.song(request);
    long id = Requests.number(request, "hearing");
    ObjectNode body = Json.body(request);
    Hearing.Decision decision =
        Requests.oneOf(Hearing.Decision.values(), body.path("decision").asText(), "decision");
    Hearing hearing = study.notebook().hearing(song, id);
    if (decision == Hearing.Decision.MINE) {
      study.correct(song, List.of(hearing.heard()), hearing.author());
    }
    Hearing decided =
        study.notebook().decide(song, id, CorrectionRoutes.author(body, study), decision);
    changed(song);
    Json.send(request, new NoteView(preferences.wording(request), KEYLESS).hearing(decided));
  }

  private void takeAwayHearing(Context request) {
    long song = Requests.song(request);
    study.notebook().takeAwayHearing(song, Requests.number(request, "hearing"));
    changed(song);
    request.status(204);
  }

  private void judge(Context request) {
    ObjectNode body = Json.body(request);
    long song = Requests.song(request);
    Verdict.Answer answer =
        Requests.oneOf(Verdict.Answer.values(), body.path("answer").asText(), "answer");
    String words = body.path("words").asText("").strip();
    if (answer == Verdict.Answer.WORDS && words.isEmpty()) {
      throw new Trouble.WrongUsage("A verdict in words must have words.");
    }
    Finding finding = finding(song, body);
    Verdict verdict =
        study.notebook().judge(song, finding, answer, words, CorrectionRoutes.author(body, study));
    changed(song);
    Json.send(request.status(201), FindingView.verdict(verdict));
  }

  private Finding finding(long song, ObjectNode body) {
    String technique = body.path("technique").asText();
    double start = start(body);
    return study.findings(song).stream()
        .filter(one -> one.technique().id().equals(technique))
        .filter(one -> Math.abs(one.span().startSeconds() - start) < SAME_PLACE_SECONDS)
        .findFirst()
        .orElseThrow(
            () ->
                new Trouble.NotOnShelf(
                    "Song %d has no finding \"%s\" from %s s. Maybe a correction has moved it."
                        .formatted(song, technique, start)));
  }

  private void takeBackVerdict(Context request) {
    long song = Requests.song(request);
    study.notebook().takeBackVerdict(song, Requests.number(request, "verdict"));
    changed(song);
    request.status(204);
  }

  private void resetRanking(Context request) {
    study.notebook().resetRanking(study.speaker().name());
    study.songs("").forEach(entry -> changed(entry.song().id()));
    request.status(204);
  }

  private void changed(long song) {
    events.song(song);
  }

  private static double start(ObjectNode body) {
    JsonNode start = body.path("startSeconds");
    if (!start.isNumber()) {
      throw new Trouble.WrongUsage(
          "startSeconds must be a number of seconds; it is %s.".formatted(start));
    }
    return start.asDouble();
  }

  private static OptionalDouble end(ObjectNode body) {
    JsonNode end = body.path("endSeconds");
    return end.isNumber() ? OptionalDouble.of(end.asDouble()) : OptionalDouble.empty();
  }

  private static String text(ObjectNode body) {
    return body.path("text").asText("");
  }
}
