package undersong.desk;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import undersong.search.Places;
import undersong.shelf.Song;
import undersong.study.Search;
import undersong.study.SongComparison;
import undersong.study.SongComparison.Energy;
import undersong.study.SongComparison.Shared;
import undersong.study.Study;
import undersong.technique.Technique;
import undersong.technique.Texts;

/** Looking for music on the shelf, and two songs side by side. */
final class SearchRoutes {
  private static final Texts TEXTS = Texts.in(java.util.Locale.ENGLISH);
  private static final int MOST_LIKE = 20;

  private final Study study;

  SearchRoutes(Study study) {
    this.study = study;
  }

  void addTo(RoutesConfig routes) {
    routes.get("/api/search", this::search);
    routes.get("/api/songs/{song}/like", this::like);
    routes.get("/api/compare", this::compare);
    routes.get("/api/searches", this::remembered);
    routes.post("/api/searches", this::remember);
    routes.delete("/api/searches/{name}", this::forget);
  }

  private void search(Context request) {
    String question = Optional.ofNullable(request.queryParam("question")).orElse("");
    ObjectNode body = Json.object();
    body.set("hits", Json.array(study.search().find(question), SearchRoutes::hit));
    Json.send(request, body);
  }

  private static ObjectNode hit(Search.Hit hit) {
    ObjectNode node = SongRoutes.entry(hit.entry());
    node.set(
        "places",
        Json.array(hit.places(), where -> place(where.place()).put("what", where.what())));
    return node;
  }

  private static ObjectNode place(Places.Place place) {
    ObjectNode node = Json.over(place.span());
    if (place.fromBar() > 0) {
      node.putArray("bars").add(place.fromBar()).add(place.toBar());
    }
    return node;
  }

  private void like(Context request) {
    ObjectNode body = Json.object();
    List<Search.Similar> similar =
        study.search().like(Requests.song(request), Requests.span(request), MOST_LIKE);
    body.set(
        "songs",
        Json.array(
            similar,
            one -> {
              ObjectNode node = SongRoutes.entry(one.entry());
              node.put("likeness", Json.share(one.likeness()));
              node.set("place", place(one.place()));
              return node;
            }));
    Json.send(request, body);
  }

  private void compare(Context request) {
    SongComparison compared =
        study.compare(Requests.needed(request, "first"), Requests.needed(request, "second"));
    ObjectNode body = Json.object();
    body.set("first", song(compared.first()));
    body.set("second", song(compared.second()));
    body.set("both", techniques(compared.both()));
    body.set("onlyFirst", techniques(compared.onlyFirst()));
    body.set("onlySecond", techniques(compared.onlySecond()));
    compared.progression().ifPresent(shared -> body.set("progression", shared(shared)));
    compared.figure().ifPresent(shared -> body.set("figure", shared(shared)));
    body.put("likeness", Json.share(compared.likeness()));
    body.set("firstEnergy", Json.array(compared.firstEnergy(), SearchRoutes::energy));
    body.set("secondEnergy", Json.array(compared.secondEnergy(), SearchRoutes::energy));
    Json.send(request, body);
  }

  private static ObjectNode song(Song song) {
    return Json.object()
        .put("id", song.id())
        .put("title", song.title())
        .put("durationSeconds", Json.rounded(song.durationSeconds()));
  }

  private static ArrayNode techniques(Collection<Technique> techniques) {
    return Json.array(
        techniques,
        technique ->
            Json.object().put("technique", technique.id()).put("name", TEXTS.name(technique)));
  }

  private static ObjectNode shared(Shared shared) {
    ObjectNode node =
        Json.object()
            .put("length", shared.length())
            .put("words", shared.words())
            .put("semitones", shared.semitones());
    node.set("inFirst", Json.over(shared.inFirst()));
    node.set("inSecond", Json.over(shared.inSecond()));
    return node;
  }

  private static ObjectNode energy(Energy energy) {
    return Json.over(energy.span())
        .put("letter", energy.letter())
        .put("height", Json.rounded(energy.height()));
  }

  private void remembered(Context request) {
    ObjectNode body = Json.object();
    body.set(
        "searches",
        Json.array(
            study.search().saved(),
            saved ->
                Json.object()
                    .put("name", saved.name())
                    .put("question", saved.question())
                    .put("author", saved.author())));
    Json.send(request, body);
  }

  private void remember(Context request) {
    ObjectNode body = Json.body(request);
    study.search().save(body.path("name").asText(""), body.path("question").asText(""));
    request.status(204);
  }

  private void forget(Context request) {
    study.search().forget(request.pathParam("name"));
    request.status(204);
  }
}
