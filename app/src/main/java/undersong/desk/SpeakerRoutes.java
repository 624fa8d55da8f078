package undersong.desk;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import undersong.shelf.ShelfPlace;
import undersong.study.Study;

/** Who speaks at this desk: the name on what is said and kept. */
final class SpeakerRoutes {
  private final Study study;
  private final Events events;
  private final Preferences preferences;

  SpeakerRoutes(Study study, Events events, Preferences preferences) {
    this.study = study;
    this.events = events;
    this.preferences = preferences;
  }

  void addTo(RoutesConfig routes) {
    routes.get("/api/speaker", request -> Json.send(request, speaker()));
    routes.put("/api/speaker", this::rename);
  }

  private void rename(Context request) {
    study.speaker().remember(Json.body(request).path("name").asText(""));
    events.tellAll("speaker", speaker());
    // Each speaker has settings of their own.
    events.tellAll("settings", preferences.all());
    Json.send(request, speaker());
  }

  private ObjectNode speaker() {
    return Json.object()
        .put("name", study.speaker().name())
        .put("given", study.speaker().isNamed())
        .put("shared", study.place() instanceof ShelfPlace.Server);
  }
}
