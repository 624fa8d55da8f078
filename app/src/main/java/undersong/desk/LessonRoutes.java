package undersong.desk;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import undersong.lesson.Lesson;
import undersong.lesson.LessonChange;
import undersong.lesson.LessonJson;
import undersong.notation.NotationSettings;
import undersong.shelf.StoredLesson;
import undersong.study.Study;
import undersong.work.Trouble;

/** Lessons: drafted, kept in versions, and given out as a page of their own. */
final class LessonRoutes {
  private static final int MOST_ITEMS = 60;

  private final Study study;

  LessonRoutes(Study study) {
    this.study = study;
  }

  void addTo(RoutesConfig routes) {
    routes.get("/api/songs/{song}/lesson-draft", this::draft);
    routes.get("/api/songs/{song}/lesson-offers", this::offers);
    routes.get("/api/songs/{song}/lessons", this::list);
    routes.post("/api/songs/{song}/lessons", this::add);
    routes.get("/api/lessons/{lesson}", this::get);
    routes.put("/api/lessons/{lesson}", this::save);
    routes.delete("/api/lessons/{lesson}", this::takeAway);
    routes.get("/api/lessons/{lesson}/page", this::page);
  }

  private void draft(Context request) {
    int items = Requests.count(request, "items", 10, MOST_ITEMS);
    Lesson draft = study.lessons().draft(Requests.song(request), items, NotationSettings.DEFAULTS);
    Json.send(request, LessonJson.print(draft));
  }

  private void offers(Context request) {
    ObjectNode body = Json.object();
    body.set(
        "items", Json.array(study.lessons().offers(Requests.song(request)), LessonJson::print));
    Json.send(request, body);
  }

  private void list(Context request) {
    ObjectNode body = Json.object();
    body.set("lessons", Json.array(study.lessons().of(Requests.song(request)), this::kept));
    Json.send(request, body);
  }

  private void add(Context request) {
    ObjectNode body = Json.body(request);
    Lesson lesson = read(body, Requests.song(request));
    StoredLesson kept = study.lessons().add(lesson, CorrectionRoutes.author(body, study));
    Json.send(request.status(201), kept(kept));
  }

  private void get(Context request) {
    Json.send(request, kept(lesson(request)));
  }

  private void save(Context request) {
    ObjectNode body = Json.body(request);
    StoredLesson before = lesson(request);
    Lesson lesson = read(body, before.songId());
    int seen = body.path("version").asInt(0);
    Json.send(
        request,
        kept(
            study.lessons().save(before.id(), seen, lesson, CorrectionRoutes.author(body, study))));
  }

  private void takeAway(Context request) {
    study.lessons().takeAway(Requests.number(request, "lesson"));
    request.status(204);
  }

  /** A file to keep: the page stands alone, and its scripts are not those of the desk. */
  private void page(Context request) {
    StoredLesson kept = lesson(request);
    String page = study.lessons().page(LessonJson.read(kept.json(), kept.songId()));
    request
        .contentType("text/html; charset=utf-8")
        .header(
            "Content-Disposition", "attachment; filename=\"lesson-%d.html\"".formatted(kept.id()))
        .result(page);
  }

  private StoredLesson lesson(Context request) {
    return study.lessons().get(Requests.number(request, "lesson"));
  }

  private static Lesson read(ObjectNode body, long songId) {
    try {
      return LessonJson.read(body.path("lesson"), songId);
    } catch (IllegalArgumentException wrong) {
      throw new Trouble.WrongUsage(wrong.getMessage());
    }
  }

  /** A kept lesson, with what the reading says otherwise by now. */
  private ObjectNode kept(StoredLesson kept) {
    Lesson lesson = LessonJson.read(kept.json(), kept.songId());
    ObjectNode node =
        Json.object()
            .put("id", kept.id())
            .put("song", kept.songId())
            .put("version", kept.version())
            .put("author", kept.author())
            .put("savedAt", kept.savedAt().toString());
    kept.beside().ifPresent(other -> node.put("beside", other));
    node.set("lesson", LessonJson.print(lesson));
    node.set("changes", Json.array(study.lessons().changes(lesson), LessonRoutes::change));
    return node;
  }

  private static ObjectNode change(LessonChange change) {
    ObjectNode node = Json.object().put("item", change.item()).put("before", change.before());
    change.now().ifPresent(now -> node.put("now", now));
    return node;
  }
}
