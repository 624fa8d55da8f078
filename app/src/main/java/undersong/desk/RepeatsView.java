package undersong.desk;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.reading.Repeat;
import undersong.reading.Repeats;

/** What each section that returns does differently, as the page shows it. */
final class RepeatsView {
  private final Placing placing;

  RepeatsView(Placing placing) {
    this.placing = placing;
  }

  void addTo(PageParts page, Reading reading) {
    List<Repeat> repeats = reading.find(Facet.REPEATS).map(Repeats::repeats).orElse(List.of());
    page.put("repeats", () -> Json.array(repeats, this::repeat));
  }

  private ObjectNode repeat(Repeat repeat) {
    ObjectNode node =
        Json.over(repeat.span())
            .put("letter", repeat.letter())
            .put("occurrence", repeat.occurrence())
            .put("against", repeat.against());
    node.set("bars", Json.array(repeat.bars(), RepeatsView::bar));
    node.set("notes", Json.array(repeat.notes(), this::note));
    node.set("chords", Json.array(repeat.chords(), this::chord));
    node.set(
        "layers",
        Json.array(
            repeat.layers(),
            change ->
                change(change).put("layer", change.layer()).put("entered", change.entered())));
    node.set(
        "places",
        Json.array(
            repeat.places(),
            change ->
                change(change)
                    .put("part", change.part())
                    .put("before", Json.share(change.before()))
                    .put("after", Json.share(change.after()))));
    node.set(
        "levels",
        Json.array(
            repeat.levels(),
            change ->
                change(change)
                    .put("beforeLufs", Json.share(change.beforeLufs()))
                    .put("afterLufs", Json.share(change.afterLufs()))));
    node.set("settled", Json.array(repeat.settled(), this::settled));
    return node;
  }

  private static ObjectNode bar(Repeat.AlignedBar bar) {
    ObjectNode node = Json.object().put("bar", bar.bar());
    bar.earlier().forEach(node.putArray("earlier")::add);
    return node;
  }

  /** What every difference says. */
  private static ObjectNode change(Repeat.Change change) {
    return Json.over(change.span())
        .put("bar", change.bar())
        .put("probability", Json.share(change.probability()));
  }

  private ObjectNode note(Repeat.NoteChange change) {
    ObjectNode node = change(change);
    node.setAll(placing.note(change.event()));
    node.put("probability", Json.share(change.probability()))
        .put("fate", PartsView.words(change.fate()))
        .put("part", change.part())
        .put("beat", Json.share(change.beat()));
    double middle = change.span().middleSeconds();
    change.pitchBefore().ifPresent(pitch -> node.put("before", placing.pitch(pitch, middle)));
    change.semitonesAboveRoot().ifPresent(above -> node.put("semitonesAboveRoot", above));
    return node;
  }

  private ObjectNode chord(Repeat.ChordChange change) {
    double middle = change.span().middleSeconds();
    ObjectNode node = change(change).put("beat", Json.share(change.beat()));
    node.set("before", placing.chord(change.before(), middle));
    node.set("after", placing.chord(change.after(), middle));
    return node;
  }

  private ObjectNode settled(Repeat.Settled settled) {
    double start = settled.span().startSeconds();
    ObjectNode node =
        Json.over(settled.span())
            .put("member", PartsView.words(settled.member()))
            .put("part", settled.part())
            .put("beat", Json.share(settled.beat()))
            .put("probability", Json.share(settled.probability()));
    node.set("before", placing.chord(settled.before(), start));
    node.set("after", placing.chord(settled.after(), start));
    node.set("by", placing.name(settled.pitchClass(), start));
    ArrayNode bars = node.putArray("bars");
    settled.bars().forEach(bars::add);
    return node;
  }
}
