package undersong.desk;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Locale;
import undersong.reading.Correction;
import undersong.reading.Keys;
import undersong.shelf.Hearing;
import undersong.shelf.Remark;
import undersong.study.Comparison;
import undersong.theory.ChordSymbol;
import undersong.theory.Key;

/** What listeners wrote down beside the reading, worded for one reader. */
final class NoteView {
  private final Wording wording;
  private final Keys keys;

  /**
   * @param keys that names are spelled in
   */
  NoteView(Wording wording, Keys keys) {
    this.wording = wording;
    this.keys = keys;
  }

  static ObjectNode remark(Remark remark) {
    ObjectNode node =
        Json.object()
            .put("id", remark.id())
            .put("startSeconds", Json.rounded(remark.startSeconds()));
    remark.endSeconds().ifPresent(end -> node.put("endSeconds", Json.rounded(end)));
    node.put("text", remark.words())
        .put("author", remark.author())
        .put("saidAt", remark.saidAt().toString());
    node.set(
        "earlier",
        Json.array(
            remark.earlier(),
            one ->
                Json.object()
                    .put("text", one.words())
                    .put("author", one.author())
                    .put("saidAt", one.saidAt().toString())));
    return node;
  }

  /** A hearing by itself, not yet held against anything. */
  ObjectNode hearing(Hearing hearing) {
    ObjectNode node =
        Json.object()
            .put("id", hearing.id())
            .put("author", hearing.author())
            .put("saidAt", hearing.saidAt().toString());
    node.set("heard", CorrectionJson.print(hearing.heard()));
    node.set(
        "decisions",
        Json.array(
            hearing.decisions(),
            one ->
                Json.object()
                    .put("author", one.author())
                    .put("saidAt", one.saidAt().toString())
                    .put("decision", word(one.decision()))));
    return node.put("label", label(hearing.heard())).put("decision", word(hearing.decision()));
  }

  private static String word(Hearing.Decision decision) {
    return decision.name().toLowerCase(Locale.ROOT);
  }

  ObjectNode comparison(Comparison comparison) {
    ObjectNode node = hearing(comparison.hearing());
    if (comparison.comparable()) {
      node.put("agrees", comparison.differences().isEmpty());
      ArrayNode differences = node.putArray("differsIn");
      comparison.differences().stream()
          .sorted()
          .forEach(d -> differences.add(d.name().toLowerCase(Locale.ROOT).replace('_', ' ')));
      node.set("program", Json.array(comparison.reading(), this::read));
    }
    return node;
  }

  private ObjectNode read(Correction read) {
    return Json.over(CorrectionWords.span(read)).put("label", label(read));
  }

  private String label(Correction said) {
    double middle = CorrectionWords.span(said).middleSeconds();
    Key key = keys.keyAt(middle).or(keys::mainKey).orElse(CorrectionWords.NO_KEY);
    if (said instanceof Correction.KeyOver over) {
      return wording.key(over.key());
    } else if (said instanceof Correction.ChordOver over) {
      return wording.chord(over.chord(), key);
    } else if (said instanceof Correction.BassNoteOver over) {
      return pitch(over.midiPitch(), key);
    } else if (said instanceof Correction.MelodyNoteOver over) {
      return pitch(over.midiPitch(), key);
    }
    return new CorrectionWords(wording).of(said);
  }

  private String pitch(double midiPitch, Key key) {
    return wording.pitch((int) Math.round(midiPitch), key, ChordSymbol.NONE);
  }
}
