package undersong.desk;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import undersong.reading.BarTexture;
import undersong.reading.BarWidth;
import undersong.reading.Ducking;
import undersong.reading.Echo;
import undersong.reading.Echoes;
import undersong.reading.Facet;
import undersong.reading.Gesture;
import undersong.reading.HearingBand;
import undersong.reading.Layer;
import undersong.reading.PlacedEvent;
import undersong.reading.Reading;
import undersong.reading.Reverb;
import undersong.reading.Space;
import undersong.reading.Texture;

/** Space, texture and echoes as the page shows them. */
final class SoundView {
  private SoundView() {}

  static void addTo(PageParts page, Reading reading) {
    page.put("bands", () -> Json.array(List.of(HearingBand.values()), SoundView::band));
    page.put("space", () -> space(reading.find(Facet.SPACE).orElse(Space.NONE)));
    page.put("texture", () -> texture(reading.find(Facet.TEXTURE).orElse(Texture.NONE)));
    page.put("echoes", () -> echoes(reading.find(Facet.ECHOES).orElse(Echoes.NONE)));
  }

  private static ObjectNode band(HearingBand band) {
    return Json.object()
        .put("name", band.words())
        .put("bottomHz", band.bottomHz())
        .put("topHz", band.topHz());
  }

  private static ObjectNode space(Space space) {
    ObjectNode node = Json.object().put("foldDownLossDb", Json.share(space.foldDownLossDb()));
    node.set("bars", Json.array(space.bars(), SoundView::width));
    node.set("events", Json.array(space.events(), SoundView::placed));
    return node;
  }

  private static ObjectNode width(BarWidth width) {
    ObjectNode node = Json.object().put("sideToMidDb", Json.share(width.sideToMidDb()));
    node.set(
        "bands",
        Json.array(
            width.bands(),
            band ->
                Json.object()
                    .put("sideToMidDb", Json.share(band.sideToMidDb()))
                    .put("correlation", Json.share(band.correlation()))));
    return node;
  }

  private static ObjectNode placed(PlacedEvent event) {
    ObjectNode node = Json.over(event.span()).put("source", event.source().words());
    event.midiPitch().ifPresent(pitch -> node.put("midi", Json.share(pitch)));
    return node.put("bottomHz", Math.round(event.bottomHz()))
        .put("topHz", Math.round(event.topHz()))
        .put("placement", Json.share(event.placement()))
        .put("strengthDb", Json.share(event.strengthDb()))
        .put("probability", Json.share(event.probability()));
  }

  private static ObjectNode texture(Texture texture) {
    ObjectNode node = Json.object();
    node.set("layers", Json.array(texture.layers(), SoundView::layer));
    node.set("bars", Json.array(texture.bars(), SoundView::bar));
    node.set("gestures", Json.array(texture.gestures(), SoundView::gesture));
    node.set("ducking", Json.array(texture.ducking(), SoundView::ducking));
    return node;
  }

  private static ObjectNode layer(Layer layer) {
    ObjectNode node = Json.over(layer.span()).put("layer", layer.kind().words());
    layer.decaySeconds().ifPresent(decay -> node.put("decaySeconds", Json.share(decay)));
    return node.put("probability", Json.share(layer.probability()));
  }

  private static ObjectNode bar(BarTexture bar) {
    ObjectNode node =
        Json.object()
            .put("onsetsPerBeat", Json.share(bar.onsetsPerBeat()))
            .put("centroidHz", Math.round(bar.centroidHz()))
            .put("rollOffHz", Math.round(bar.rollOffHz()))
            .put("noisiness", Json.share(bar.noisiness()));
    node.set("bandLevelsDb", numbers(bar.bandLevelsDb()));
    return node;
  }

  private static ObjectNode gesture(Gesture gesture) {
    return Json.over(gesture.span())
        .put("kind", PartsView.words(gesture.kind()))
        .put("octaves", Json.share(gesture.octaves()))
        .put("levelChangeDb", Json.share(gesture.levelChangeDb()))
        .put("steadiness", Json.share(gesture.steadiness()))
        .put("probability", Json.share(gesture.probability()));
  }

  private static ObjectNode ducking(Ducking ducking) {
    return Json.over(ducking.span())
        .put("depthDb", Json.share(ducking.depthDb()))
        .put("lagSeconds", Json.share(ducking.lagSeconds()))
        .put("recoverySeconds", Json.share(ducking.recoverySeconds()))
        .put("probability", Json.share(ducking.probability()));
  }

  private static ObjectNode echoes(Echoes echoes) {
    ObjectNode node = Json.object();
    node.set("echoes", Json.array(echoes.echoes(), SoundView::echo));
    node.set("reverbs", Json.array(echoes.reverbs(), SoundView::reverb));
    return node;
  }

  private static ObjectNode echo(Echo echo) {
    ObjectNode node =
        Json.over(echo.span())
            .put("kind", PartsView.words(echo.kind()))
            .put("lagSeconds", Json.rounded(echo.lagSeconds()))
            .put("lagWanderSeconds", Json.rounded(echo.lagWanderSeconds()))
            .put("pitchWanderCents", Json.share(echo.pitchWanderCents()));
    echo.noteValue().ifPresent(value -> node.put("noteValue", value.toString()));
    node.put("sourcePlacement", Json.share(echo.sourcePlacement()))
        .put("decayDbPerRepeat", Json.share(echo.decayDbPerRepeat()))
        .put("alternatesSides", echo.alternatesSides())
        .put("probability", Json.share(echo.probability()));
    node.set(
        "repeats",
        Json.array(
            echo.repeats(),
            repeat ->
                Json.object()
                    .put("levelDb", Json.share(repeat.levelDb()))
                    .put("placement", Json.share(repeat.placement()))
                    .put("brightnessDb", Json.share(repeat.brightnessDb()))));
    return node;
  }

  private static ObjectNode reverb(Reverb reverb) {
    ObjectNode node =
        Json.over(reverb.span())
            .put("wetToDryDb", Json.share(reverb.wetToDryDb()))
            .put("wanderDb", Json.share(reverb.wanderDb()))
            .put("changeDb", Json.share(reverb.changeDb()))
            .put("meanDecaySeconds", Json.share(reverb.meanDecaySeconds()))
            .put("probability", Json.share(reverb.probability()));
    node.set("decaySeconds", numbers(reverb.decaySeconds()));
    return node;
  }

  private static ArrayNode numbers(List<Double> values) {
    ArrayNode numbers = JsonNodeFactory.instance.arrayNode(values.size());
    values.forEach(value -> numbers.add(Json.share(value)));
    return numbers;
  }
}
