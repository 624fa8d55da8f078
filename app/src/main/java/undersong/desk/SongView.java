package undersong.desk;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.BooleanNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Facet;
import undersong.reading.Keys;
import undersong.reading.Reading;
import undersong.shelf.Song;
import undersong.shelf.SongWording;
import undersong.shelf.Step;
import undersong.study.Answer;
import undersong.study.FacetChange;
import undersong.study.Offer;
import undersong.study.Stretch;
import undersong.study.Studied;
import undersong.study.Study;

/** A song, what was said of it and what follows from that, worded for one reader. */
final class SongView {
  private final Study study;
  private final Wording wording;
  private final CorrectionWords words;
  private final Pages pages;

  SongView(Study study, Wording wording, Pages pages) {
    this.study = study;
    this.wording = wording;
    this.pages = pages;
    this.words = new CorrectionWords(wording);
  }

  /** What a reader wants of the page; the revision is told always. */
  ObjectNode page(Studied studied, Wanted wanted) {
    ObjectNode page = Json.object().put("revision", studied.stored().revision());
    parts(studied).addTo(page, wanted);
    return page;
  }

  private PageParts parts(Studied studied) {
    long song = studied.song().id();
    Reading reading = studied.stored().reading();
    PageParts page = new PageParts();
    page.put("song", () -> song(studied.song()));
    page.put("settings", () -> SettingWords.print(wording));
    PageParts read = new PageParts();
    new ReadingView(reading, wording).addTo(read);
    page.putAll(read, pages.printed(studied.stored(), wording));
    page.put("remarks", () -> Json.array(study.notebook().remarks(song), NoteView::remark));
    page.put("hearings", () -> hearings(studied));
    page.put("findings", () -> FindingView.print(study.ranked(song), reading));
    page.put("verdicts", () -> Json.array(study.notebook().verdicts(song), FindingView::verdict));
    page.put("earlierWords", () -> earlierWords(study.wordings(song)));
    List<Step> steps = study.steps(song);
    page.put("steps", () -> Json.array(steps, this::step));
    page.put("canUndo", () -> BooleanNode.valueOf(steps.stream().anyMatch(study::isUndone)));
    page.put("canRedo", () -> BooleanNode.valueOf(study.canRedo(song)));
    page.put("unplaced", () -> Json.array(reading.unplaced(), this::said));
    return page;
  }

  private static ArrayNode earlierWords(List<SongWording> wordings) {
    return Json.array(
        wordings.subList(0, Math.max(0, wordings.size() - 1)),
        one ->
            words(one.words()).put("author", one.author()).put("saidAt", one.saidAt().toString()));
  }

  /** What listeners heard for themselves, held against the reading. */
  ArrayNode hearings(Studied studied) {
    Reading reading = studied.stored().reading();
    NoteView view = new NoteView(wording, reading.find(Facet.KEYS).orElse(new Keys(List.of())));
    return Json.array(study.notebook().comparisons(studied.song().id(), reading), view::comparison);
  }

  static ObjectNode song(Song song) {
    ObjectNode node =
        Json.object()
            .put("id", song.id())
            .put("title", song.title())
            .put("durationSeconds", Json.rounded(song.durationSeconds()))
            .put("studiedAt", song.studiedAt().toString())
            .put("origin", song.origin().word());
    song.artist().ifPresent(artist -> node.put("artist", artist));
    song.year().ifPresent(year -> node.put("year", year));
    node.set("said", words(song.said()));
    node.set("tagged", words(song.tagged()));
    return node;
  }

  private static ObjectNode words(Song.Words words) {
    ObjectNode node = Json.object();
    words.title().ifPresent(title -> node.put("title", title));
    words.artist().ifPresent(artist -> node.put("artist", artist));
    words.year().ifPresent(year -> node.put("year", year));
    return node;
  }

  ObjectNode answer(Song song, Answer answer, Wanted wanted) {
    ObjectNode node = Json.object().put("revision", answer.reading().revision());
    node.set("changes", Json.array(answer.changes(), SongView::change));
    node.set("unplaced", Json.array(answer.unplaced(), this::said));
    node.set("page", page(new Studied(song, answer.reading()), wanted));
    return node;
  }

  ObjectNode offer(Offer offer) {
    ObjectNode node = Json.object();
    node.set(
        "section",
        Json.object()
            .put("letter", offer.section().letter())
            .put("occurrence", offer.section().occurrence())
            .put("firstBar", offer.section().firstBar())
            .put("lastBar", offer.section().lastBar()));
    node.set("correction", CorrectionJson.print(offer.correction()));
    node.put("words", words.of(offer.correction()));
    node.set("change", change(offer.change()));
    return node;
  }

  private static ObjectNode change(FacetChange change) {
    ObjectNode node = Json.object().put("facet", change.facet().name());
    node.set("before", Json.array(change.before(), SongView::stretch));
    node.set("after", Json.array(change.after(), SongView::stretch));
    return node;
  }

  private static ObjectNode stretch(Stretch stretch) {
    return Json.over(stretch.span()).put("words", stretch.words());
  }

  ObjectNode step(Step step) {
    ObjectNode node =
        Json.object()
            .put("id", step.id())
            .put("author", step.author())
            .put("saidAt", step.saidAt().toString())
            .put("inForce", step.inForce());
    node.set("corrections", Json.array(step.entries(), this::entry));
    return node;
  }

  private ObjectNode entry(CorrectionEntry entry) {
    return said(entry.correction()).put("id", entry.id());
  }

  private ObjectNode said(Correction correction) {
    ObjectNode node = Json.object();
    node.set("correction", CorrectionJson.print(correction));
    return node.put("words", words.of(correction));
  }
}
