package undersong.desk;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import undersong.shelf.Origin;
import undersong.study.Study;
import undersong.technique.Technique;
import undersong.trend.Counted;
import undersong.trend.Share;
import undersong.trend.Trend;
import undersong.trend.Trend.Grouping;
import undersong.trend.Unusual;
import undersong.work.Trouble;

/** What the whole shelf shows. */
final class TrendRoutes {
  private final Study study;

  TrendRoutes(Study study) {
    this.study = study;
  }

  void addTo(RoutesConfig routes) {
    routes.get("/api/techniques", TrendRoutes::techniques);
    routes.get("/api/trends", this::trend);
    routes.get("/api/songs/{song}/unusual", this::unusual);
  }

  private static void techniques(Context request) {
    ObjectNode body = Json.object();
    body.set("techniques", Json.array(List.of(Technique.values()), FindingView::named));
    Json.send(request, body);
  }

  private void trend(Context request) {
    String by = Optional.ofNullable(request.queryParam("by")).orElse("decade");
    String within = Optional.ofNullable(request.queryParam("within")).orElse("");
    Trend trend =
        study
            .trends()
            .of(
                counted(request),
                Requests.oneOf(Grouping.values(), by, "by"),
                origins(request),
                within);
    ObjectNode body = Json.object().put("words", trend.words()).put("by", by);
    body.set("all", share(trend.all()));
    body.set("groups", Json.array(trend.groups(), TrendRoutes::group));
    body.put("ungrouped", trend.ungrouped());
    trend
        .change()
        .ifPresent(
            change ->
                body.putObject("change")
                    .put("value", Json.share(change.value()))
                    .put("low", Json.share(change.low()))
                    .put("high", Json.share(change.high()))
                    .put("told", change.isTold()));
    Json.send(request, body.put("said", trend.said()));
  }

  private static ObjectNode group(Trend.Group group) {
    ObjectNode node = share(group.share()).put("name", group.name());
    node.put("tellable", group.isTellable());
    group.songIds().forEach(node.putArray("songIds")::add);
    return node;
  }

  private static ObjectNode share(Share share) {
    return Json.object()
        .put("songs", share.songs())
        .put("of", share.of())
        .put("share", Json.share(share.value()))
        .put("low", Json.share(share.low()))
        .put("high", Json.share(share.high()));
  }

  private void unusual(Context request) {
    Unusual unusual = study.trends().unusual(Requests.song(request), origins(request));
    ObjectNode body = Json.object();
    body.set(
        "rare",
        Json.array(
            unusual.rare(),
            rare ->
                share(rare.others())
                    .put("technique", rare.technique())
                    .put("name", FindingView.name(rare.technique()))));
    unusual.bits().ifPresent(bits -> body.put("bits", Json.share(bits)));
    unusual.lessSurprising().ifPresent(less -> body.set("lessSurprising", share(less)));
    String experience = study.trends().experience(Requests.song(request), origins(request)).said();
    Json.send(request, body.put("said", (unusual.said() + " " + experience).strip()));
  }

  private static Counted counted(Context request) {
    String technique = request.queryParam("technique");
    String progression = request.queryParam("progression");
    if ((technique == null) == (progression == null)) {
      throw new Trouble.WrongUsage(
          "Ask for one of technique (an id of the catalogue) and progression (numerals).");
    }
    try {
      return technique != null
          ? Counted.technique(Technique.named(technique))
          : Counted.progression(progression);
    } catch (IllegalArgumentException wrong) {
      throw new Trouble.WrongUsage(String.valueOf(wrong.getMessage()));
    }
  }

  private static Set<Origin> origins(Context request) {
    String words = Optional.ofNullable(request.queryParam("from")).orElse("recording");
    EnumSet<Origin> origins = EnumSet.noneOf(Origin.class);
    Arrays.stream(words.split(",", -1))
        .forEach(word -> origins.add(Requests.oneOf(Origin.values(), word, "from")));
    return origins;
  }
}
