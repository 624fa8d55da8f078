package undersong.desk;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.OptionalLong;
import java.util.Set;
import undersong.lesson.Lesson;
import undersong.lesson.drill.Drill;
import undersong.lesson.drill.DrillJson;
import undersong.lesson.drill.DrillKind;
import undersong.lesson.drill.DrillWords;
import undersong.lesson.sketch.Sketch;
import undersong.lesson.sketch.SketchMaker;
import undersong.lesson.sketch.SketchWords;
import undersong.notation.NotationSettings;
import undersong.study.LessonBook;
import undersong.study.Study;
import undersong.technique.Texts;
import undersong.theory.Numerals;
import undersong.work.Trouble;

/** What a student does with what was found: exercises for the ear, and new pieces to try. */
final class PracticeRoutes {
  private static final Texts TEXTS = Texts.in(Locale.ENGLISH);
  private static final int USUAL_EACH = 6;
  private static final int MOST_EACH = 50;
  private static final int TECHNIQUES = 10;

  private final Study study;

  PracticeRoutes(Study study) {
    this.study = study;
  }

  void addTo(RoutesConfig routes) {
    routes.get("/api/songs/{song}/drills", this::drills);
    routes.get("/api/songs/{song}/drills/page", this::drillPage);
    routes.get("/api/songs/{song}/drills/answers", this::answers);
    routes.get("/api/sketches", this::sketches);
    routes.get("/api/sketches/{technique}", this::sketch);
    routes.get("/api/sketches/{technique}/{file}", this::sketchFile);
  }

  private void drills(Context request) {
    ObjectNode body = Json.object();
    body.set("drills", DrillJson.print(made(request, lesson(request))));
    body.set("kinds", Json.array(List.of(DrillKind.values()), PracticeRoutes::kind));
    Json.send(request, body);
  }

  private static ObjectNode kind(DrillKind kind) {
    return Json.object()
        .put("kind", kind.id())
        .put("title", kind.title())
        .put("levels", kind.levels());
  }

  private void drillPage(Context request) {
    Lesson lesson = lesson(request);
    String page = study.lessons().drillPage(lesson, made(request, lesson));
    download(request, "exercises.html", page.getBytes(StandardCharsets.UTF_8));
  }

  private void answers(Context request) {
    String key = DrillWords.answers(made(request, lesson(request)));
    download(request, "answers.txt", key.getBytes(StandardCharsets.UTF_8));
  }

  private Lesson lesson(Context request) {
    Lesson lesson =
        study.lessons().draft(Requests.song(request), TECHNIQUES, NotationSettings.DEFAULTS);
    return lesson.withTitle("Exercises: " + lesson.title());
  }

  private List<Drill> made(Context request, Lesson lesson) {
    int each = Requests.count(request, "each", USUAL_EACH, MOST_EACH);
    return study.lessons().drills(lesson, kinds(request), each, seed(request));
  }

  private static Set<DrillKind> kinds(Context request) {
    String words = request.queryParam("kinds");
    EnumSet<DrillKind> kinds = EnumSet.noneOf(DrillKind.class);
    if (words != null) {
      Arrays.stream(words.split(",", -1))
          .forEach(word -> kinds.add(Requests.oneOf(DrillKind.values(), word, "kinds")));
    }
    return kinds;
  }

  private static long seed(Context request) {
    String text = request.queryParam("seed");
    try {
      return text == null ? 1 : Long.parseLong(text);
    } catch (NumberFormatException notANumber) {
      throw new Trouble.WrongUsage("seed is \"%s\"; it must be a whole number.".formatted(text));
    }
  }

  /** What can be sketched. */
  private void sketches(Context request) {
    ObjectNode body = Json.object();
    body.set(
        "techniques",
        Json.array(
            SketchMaker.known(),
            technique ->
                Json.object().put("technique", technique.id()).put("name", TEXTS.name(technique))));
    Json.send(request, body);
  }

  private void sketch(Context request) {
    Sketch sketch = madeSketch(request);
    ObjectNode body =
        Json.object()
            .put("technique", sketch.technique().id())
            .put("name", TEXTS.name(sketch.technique()))
            .put("seed", sketch.seed())
            .put("key", sketch.key().toString())
            .put("bpm", Math.round(sketch.song().score().bpm()))
            .put("why", sketch.why())
            .put("words", SketchWords.print(sketch, TEXTS));
    body.putArray("bars").add(sketch.shown().first()).add(sketch.shown().last());
    body.setAll(Json.over(sketch.shownSpan()));
    ArrayNode numerals = body.putArray("numerals");
    sketch.numerals().forEach(one -> numerals.add(Numerals.print(one, sketch.key())));
    if (request.queryParam("song") != null) {
      body.putObject("inCommon")
          .put("notes", sketch.quoted().notes())
          .put("chords", sketch.quoted().chords());
    }
    LessonBook.SKETCH_FILES.forEach(body.putArray("files")::add);
    Json.send(request, body);
  }

  private void sketchFile(Context request) {
    String name = request.pathParam("file");
    download(request, name, study.lessons().file(madeSketch(request), name));
  }

  private Sketch madeSketch(Context request) {
    String song = request.queryParam("song");
    OptionalLong beside;
    try {
      beside = song == null ? OptionalLong.empty() : OptionalLong.of(Long.parseLong(song));
    } catch (NumberFormatException notANumber) {
      throw new Trouble.WrongUsage(
          "song is \"%s\"; it must be the number of a song.".formatted(song));
    }
    return study
        .lessons()
        .sketch(Requests.technique(request.pathParam("technique")), seed(request), beside);
  }

  /** A file that a browser keeps rather than shows; sound it plays as well. */
  private static void download(Context request, String name, byte[] bytes) {
    String end = name.substring(name.lastIndexOf('.') + 1);
    String type =
        switch (end) {
          case "html" -> "text/html; charset=utf-8";
          case "txt" -> "text/plain; charset=utf-8";
          case "musicxml" -> "application/vnd.recordare.musicxml+xml";
          case "mid" -> "audio/midi";
          default -> "audio/wav";
        };
    request.header("Content-Disposition", "attachment; filename=\"" + name + "\"");
    request.contentType(type).result(bytes);
  }
}
