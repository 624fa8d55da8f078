package undersong.desk;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import undersong.reading.Beats;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Facet;
import undersong.reading.Keys;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.theory.ChordSymbol;
import undersong.theory.HarteSyntax;
import undersong.theory.Key;
import undersong.theory.NoteName;
import undersong.theory.Spelling;
import undersong.time.BeatGrid;
import undersong.time.Span;

/** Words for what sounds at a place of a reading, which depend on the key and chord there. */
final class Placing {
  /** Below this probability an item is shown as open. */
  static final double OPEN_BELOW = 0.5;

  private final Wording wording;
  private final BeatGrid grid;
  private final Keys keys;
  private final List<ChordSpan> chords;

  Placing(Reading reading, Wording wording) {
    this.wording = wording;
    this.grid = reading.find(Facet.BEATS).map(Beats::grid).orElse(BeatGrid.NO_PULSE);
    this.keys = reading.find(Facet.KEYS).orElse(new Keys(List.of()));
    this.chords = reading.find(Facet.CHORDS).map(Chords::spans).orElse(List.of());
  }

  BeatGrid grid() {
    return grid;
  }

  Key keyAt(double seconds) {
    return keys.keyAt(seconds).or(keys::mainKey).orElse(CorrectionWords.NO_KEY);
  }

  /** The chord at a time; chords go from the start to the end without gaps. */
  private ChordSymbol chordAt(double seconds) {
    int low = 0;
    int high = chords.size() - 1;
    while (low < high) {
      int middle = (low + high + 1) >>> 1;
      if (chords.get(middle).span().startSeconds() <= seconds) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    return chords.isEmpty() ? ChordSymbol.NONE : chords.get(low).symbol();
  }

  /** Says what a chord is called, for programs and for people. */
  ObjectNode chord(ChordSymbol symbol, Key key, ObjectNode node) {
    return node.put("harte", HarteSyntax.print(symbol)).put("label", wording.chord(symbol, key));
  }

  ObjectNode chord(ChordSymbol symbol, double seconds) {
    return chord(symbol, keyAt(seconds), Json.object());
  }

  ArrayNode notes(List<NoteEvent> notes) {
    return Json.array(notes, this::note);
  }

  ObjectNode note(NoteEvent note) {
    double middle = note.span().middleSeconds();
    Key key = keyAt(middle);
    ChordSymbol sounding = chordAt(middle);
    int midi = (int) Math.round(note.midiPitch());
    NoteName name = Spelling.name(midi, key, sounding);
    ObjectNode node = over(note.span());
    node.put("midi", Math.round(note.midiPitch() * 100) / 100.0)
        .put("pitch", wording.pitch(midi, key, sounding))
        .put("cents", Math.round(100 * (note.midiPitch() - midi)))
        .put("probability", Json.share(note.probability()))
        .put("open", note.probability() < OPEN_BELOW);
    return name(name, key, node);
  }

  /** A pitch class at a time: name, and syllable and degree where a key is heard. */
  ObjectNode name(int pitchClass, double seconds) {
    Key key = keyAt(seconds);
    return name(Spelling.name(pitchClass, key, chordAt(seconds)), key, Json.object());
  }

  private ObjectNode name(NoteName name, Key key, ObjectNode node) {
    node.put("name", wording.name(name, key));
    if (!keys.regions().isEmpty()) {
      node.put("syllable", wording.syllable(name, key)).put("degree", Wording.degree(name, key));
    }
    return node;
  }

  String pitch(double midiPitch, double seconds) {
    return wording.pitch((int) Math.round(midiPitch), keyAt(seconds), chordAt(seconds));
  }

  /** An object that begins with where its thing sounds, in seconds and beats. */
  ObjectNode over(Span span) {
    ObjectNode node = Json.over(span);
    if (!grid.isEmpty()) {
      node.put("startBeat", Json.share(grid.positionAt(span.startSeconds())));
      node.put("endBeat", Json.share(grid.positionAt(span.endSeconds())));
    }
    return node;
  }
}
