package undersong.desk;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import undersong.reading.Facet;
import undersong.reading.Line;
import undersong.reading.Lines;
import undersong.reading.Motif;
import undersong.reading.Motifs;
import undersong.reading.Reading;
import undersong.reading.Voice;
import undersong.reading.Voices;

/** The parts beside bass and lead, and the figures all parts play, as the page shows them. */
final class PartsView {
  private final Placing placing;

  PartsView(Placing placing) {
    this.placing = placing;
  }

  void addTo(PageParts page, Reading reading) {
    List<Voice> voices = reading.find(Facet.VOICES).map(Voices::voices).orElse(List.of());
    page.put("voices", () -> Json.array(voices, this::voice));
    Lines lines = reading.find(Facet.LINES).orElse(Lines.NONE);
    page.put("lines", () -> Json.array(lines.lines(), this::line));
    page.put("takeovers", () -> Json.array(lines.takeovers(), PartsView::takeover));
    Motifs motifs = reading.find(Facet.MOTIFS).orElse(Motifs.NONE);
    page.put("motifs", () -> Json.array(motifs.motifs(), PartsView::motif));
    page.put("ranges", () -> Json.array(motifs.ranges(), this::range));
  }

  private ObjectNode voice(Voice voice) {
    ObjectNode node = Json.object().put("name", voice.name());
    node.set("notes", Json.array(voice.notes(), this::sung));
    node.set("phrases", Json.array(voice.phrases(), PartsView::phrase));
    return node;
  }

  private ObjectNode sung(Voice.Sung sung) {
    ObjectNode node = placing.note(sung.event());
    sung.semitonesAboveLead().ifPresent(semitones -> node.put("semitonesAboveLead", semitones));
    return node;
  }

  private static ObjectNode phrase(Voice.Phrase phrase) {
    ObjectNode node = Json.over(phrase.span()).put("kind", phrase.kind().words());
    phrase.semitonesAboveLead().ifPresent(semitones -> node.put("semitonesAboveLead", semitones));
    return node.put("probability", Json.share(phrase.probability()));
  }

  private ObjectNode line(Line line) {
    ObjectNode node = Json.object().put("name", line.name());
    line.kind().ifPresent(kind -> node.put("kind", kind.words()));
    line.placement().ifPresent(place -> node.put("placement", Json.share(place)));
    node.put("probability", Json.share(line.probability()));
    node.set("notes", placing.notes(line.notes()));
    return node;
  }

  private static ObjectNode takeover(Lines.Takeover takeover) {
    return Json.object()
        .put("from", takeover.from())
        .put("to", takeover.to())
        .put("fromSeconds", Json.rounded(takeover.fromSeconds()))
        .put("atSeconds", Json.rounded(takeover.atSeconds()))
        .put("probability", Json.share(takeover.probability()));
  }

  private static ObjectNode motif(Motif motif) {
    ObjectNode node =
        Json.object()
            .put("part", motif.part())
            .put("riff", motif.riff())
            .put("probability", Json.share(motif.probability()));
    node.set(
        "cell",
        Json.array(
            motif.cell(),
            note ->
                Json.object()
                    .put("onsetBeats", Json.share(note.onsetBeats()))
                    .put("lengthBeats", Json.share(note.lengthBeats()))
                    .put("semitones", note.semitones())));
    node.set("occurrences", Json.array(motif.occurrences(), PartsView::occurrence));
    return node;
  }

  private static ObjectNode occurrence(Motif.Occurrence occurrence) {
    ObjectNode node =
        Json.over(occurrence.span())
            .put("firstBar", occurrence.firstBar())
            .put("transposedSemitones", occurrence.transposedSemitones());
    occurrence.scaleSteps().ifPresent(steps -> node.put("scaleSteps", steps));
    return node.put("likeness", words(occurrence.likeness()))
        .put("similarity", Json.share(occurrence.similarity()))
        .put("probability", Json.share(occurrence.probability()));
  }

  private ObjectNode range(Motifs.PartRange range) {
    double middle = range.span().middleSeconds();
    return Json.over(range.span())
        .put("part", range.part())
        .put("lowestMidi", Json.share(range.lowestMidi()))
        .put("medianMidi", Json.share(range.medianMidi()))
        .put("highestMidi", Json.share(range.highestMidi()))
        .put("lowest", placing.pitch(range.lowestMidi(), middle))
        .put("highest", placing.pitch(range.highestMidi(), middle))
        .put("contour", words(range.contour()));
  }

  static String words(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }
}
