package undersong.desk;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.List;
import java.util.Map;
import undersong.study.Study;
import undersong.work.Trouble;

/** Settings that are remembered: those that choose words, and the page's own. */
final class Preferences {
  private static final String WORDS = "desk.words";
  private static final String PAGE = "desk.page";
  private static final int LARGEST_PAGE_SETTINGS = 16 << 10;

  private final Study study;
  private final Events events;

  Preferences(Study study, Events events) {
    this.study = study;
    this.events = events;
  }

  void addTo(RoutesConfig routes) {
    routes.get("/api/settings", request -> Json.send(request, all()));
    routes.patch("/api/settings", this::change);
  }

  /** The wording that is remembered, with what the query names in its place. */
  Wording wording(Context request) {
    return SettingWords.changed(remembered(), request::queryParam);
  }

  /** The wording that is remembered. */
  Wording remembered() {
    return study
        .setting(WORDS)
        .map(Json::parse)
        .map(words -> SettingWords.changed(Wording.DEFAULTS, name -> text(words, name)))
        .orElse(Wording.DEFAULTS);
  }

  /** All of them, as the page is told. */
  ObjectNode all() {
    ObjectNode settings = SettingWords.print(remembered());
    settings.set("page", study.setting(PAGE).map(Json::parse).orElseGet(Json::object));
    return settings;
  }

  private void change(Context request) {
    ObjectNode body = Json.body(request);
    requireKnown(body);
    JsonNode page = body.path("page");
    if (page.isObject()) {
      String text = Json.print(page);
      if (text.length() > LARGEST_PAGE_SETTINGS) {
        throw new Trouble.WrongUsage(
            "The page's settings take %d letters; %d is the limit."
                .formatted(text.length(), LARGEST_PAGE_SETTINGS));
      }
      study.set(PAGE, text);
    }
    Wording changed = SettingWords.changed(remembered(), name -> text(body, name));
    study.set(WORDS, Json.print(SettingWords.print(changed)));
    ObjectNode all = all();
    events.tellAll("settings", all);
    Json.send(request, all);
  }

  private static void requireKnown(ObjectNode body) {
    ObjectNode known = SettingWords.print(Wording.DEFAULTS);
    for (Map.Entry<String, JsonNode> field : body.properties()) {
      boolean fits =
          field.getKey().equals("page")
              ? field.getValue().isObject()
              : known.has(field.getKey()) && field.getValue().isTextual();
      if (!fits) {
        throw new Trouble.WrongUsage(
            "Setting \"%s\" cannot be %s; there are %s as words, and page as an object."
                .formatted(field.getKey(), field.getValue(), names(known)));
      }
    }
  }

  private static List<String> names(ObjectNode settings) {
    return settings.properties().stream().map(Map.Entry::getKey).toList();
  }

  private static String text(JsonNode settings, String name) {
    return settings.path(name).textValue();
  }
}
