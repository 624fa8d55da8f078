package undersong.desk;

import com.fasterxml.jackson.databind.node.ArrayNode;
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

  SongView(Study study, Wording wording) {
    this.study = study;
    this.wording = wording;
    this.words = new CorrectionWords(wording);
  }

  ObjectNode page(Studied studied) {
    ObjectNode page = Json.object();
    page.set("song", song(studied.song()));
    page.put("revision", studied.stored().revision());
    page.set("settings", SettingWords.print(wording));
    new ReadingView(studied.stored().reading(), wording).addTo(page);
    addNotes(page, studied);
    page.set(
        "findings",
        FindingView.print(study.ranked(studied.song().id()), studied.stored().reading()));
    page.set(
        "verdicts",
        Json.array(study.notebook().verdicts(studied.song().id()), FindingView::verdict));
    List<SongWording> wordings = study.wordings(studied.song().id());
    page.set(
        "earlierWords",
        Json.array(
            wordings.subList(0, Math.max(0, wordings.size() - 1)),
            one ->
                words(one.words())
                    .put("author", one.author())
                    .put("saidAt", one.saidAt().toString())));
    List<Step> steps = study.steps(studied.song().id());
    page.set("steps", Json.array(steps, this::step));
    page.put("canUndo", steps.stream().anyMatch(study::isUndone));
    page.put("canRedo", study.canRedo(studied.song().id()));
    page.set("unplaced", Json.array(studied.stored().reading().unplaced(), this::said));
    return page;
  }

  private void addNotes(ObjectNode page, Studied studied) {
    long song = studied.song().id();
    page.set("remarks", Json.array(study.notebook().remarks(song), NoteView::remark));
    page.set("hearings", hearings(studied));
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

  ObjectNode answer(Song song, Answer answer) {
    ObjectNode node = Json.object().put("revision", answer.reading().revision());
    node.set("changes", Json.array(answer.changes(), SongView::change));
    node.set("unplaced", Json.array(answer.unplaced(), this::said));
    node.set("page", page(new Studied(song, answer.reading())));
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
