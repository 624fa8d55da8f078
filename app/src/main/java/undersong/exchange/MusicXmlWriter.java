package undersong.exchange;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javax.xml.stream.XMLStreamException;
import undersong.notation.NoteValue;
import undersong.notation.WrittenBar;
import undersong.notation.WrittenChord;
import undersong.notation.WrittenNote;
import undersong.notation.WrittenPart;
import undersong.notation.WrittenPart.Clef;
import undersong.notation.WrittenScore;
import undersong.theory.Interval;
import undersong.theory.Key;
import undersong.theory.SpelledPitch;

/**
 * Writes a score as MusicXML 4.0 (W3C Music Notation Community Group, final report of 2021): one
 * part a staff, chords as harmony, numerals as harmony below, syllables as lyrics. Swing is told at
 * the head; the notes stand even, as one writes it.
 *
 * <p>A score without parts is refused: MusicXML has no empty score.
 */
public final class MusicXmlWriter {
  private static final String TYPE =
      "<!DOCTYPE score-partwise PUBLIC \"-//Recordare//DTD MusicXML 4.0 Partwise//EN\""
          + " \"http://www.musicxml.org/dtds/partwise.dtd\">";

  private final WrittenScore score;
  private final XmlLines xml;
  private final MusicXmlChord chords;

  private MusicXmlWriter(WrittenScore score) throws XMLStreamException {
    this.score = score;
    this.xml = new XmlLines(TYPE);
    this.chords = new MusicXmlChord(xml);
  }

  /**
   * @param facts of the song the score is of
   */
  public static String print(WrittenScore score, SongFacts facts) {
    if (score.parts().isEmpty()) {
      throw new IllegalArgumentException(
          "There is nothing to write down: no pulse or no notes were heard.");
    }
    try {
      return new MusicXmlWriter(score).score(facts);
    } catch (XMLStreamException impossible) {
      throw new IllegalStateException("Text could not be written to memory.", impossible);
    }
  }

  private String score(SongFacts facts) throws XMLStreamException {
    xml.open("score-partwise", "version", "4.0");
    if (!facts.title().isEmpty()) {
      xml.open("work");
      xml.text("work-title", facts.title());
      xml.close();
    }
    xml.open("identification");
    if (!facts.artist().isEmpty()) {
      xml.text("creator", facts.artist(), "type", "artist");
    }
    xml.open("encoding");
    xml.text("software", "Undersong");
    xml.close();
    xml.close();
    xml.open("part-list");
    for (int i = 0; i < score.parts().size(); i++) {
      xml.open("score-part", "id", "P" + (i + 1));
      xml.text("part-name", name(score.parts().get(i).name()));
      xml.close();
    }
    xml.close();
    for (int i = 0; i < score.parts().size(); i++) {
      part(score.parts().get(i), "P" + (i + 1), i == 0);
    }
    xml.close();
    return xml.finish();
  }

  private static String name(String part) {
    return part.substring(0, 1).toUpperCase(java.util.Locale.ROOT)
        + part.substring(1).replace('-', ' ');
  }

  private void part(WrittenPart part, String id, boolean first) throws XMLStreamException {
    xml.open("part", "id", id);
    Optional<WrittenBar> before = Optional.empty();
    boolean held = false;
    for (WrittenBar bar : part.bars()) {
      int whole = bar.signature().beats() * WrittenBar.beatTicks(bar.signature());
      if (bar.ticks() < whole) {
        xml.open("measure", "number", Integer.toString(bar.number()), "implicit", "yes");
      } else {
        xml.open("measure", "number", Integer.toString(bar.number()));
      }
      attributes(bar, before, part.clef());
      if (before.isEmpty() && first) {
        head(bar);
      }
      held = notes(bar, held);
      xml.close();
      before = Optional.of(bar);
    }
    xml.close();
  }

  private void attributes(WrittenBar bar, Optional<WrittenBar> before, Clef clef)
      throws XMLStreamException {
    boolean key =
        before.isEmpty() || before.get().key().signatureFifths() != bar.key().signatureFifths();
    boolean time = before.isEmpty() || !before.get().signature().equals(bar.signature());
    if (!key && !time) {
      return;
    }
    xml.open("attributes");
    if (before.isEmpty()) {
      xml.text("divisions", Integer.toString(NoteValue.TICKS_PER_QUARTER));
    }
    if (key) {
      key(bar.key());
    }
    if (time) {
      xml.open("time");
      String[] signature = bar.signature().toString().split("/");
      xml.text("beats", signature[0]);
      xml.text("beat-type", signature[1]);
      xml.close();
    }
    if (before.isEmpty()) {
      clef(clef);
      transpose();
    }
    xml.close();
  }

  private void key(Key key) throws XMLStreamException {
    xml.open("key");
    xml.text("fifths", Integer.toString(Math.max(-7, Math.min(7, key.signatureFifths()))));
    xml.text(
        "mode",
        switch (key.mode()) {
          case MAJOR -> "major";
          case NATURAL_MINOR, HARMONIC_MINOR, MELODIC_MINOR -> "minor";
          case DORIAN -> "dorian";
          case PHRYGIAN -> "phrygian";
          case LYDIAN -> "lydian";
          case MIXOLYDIAN -> "mixolydian";
        });
    xml.close();
  }

  /** From what is written to what sounds: downward. */
  private void transpose() throws XMLStreamException {
    Interval up = score.instrument().writtenAboveSounding();
    if (up.semitones() == 0) {
      return;
    }
    xml.open("transpose");
    xml.text("diatonic", Integer.toString(-(up.steps() % 7)));
    xml.text("chromatic", Integer.toString(-(up.semitones() % 12)));
    if (up.semitones() >= 12) {
      xml.text("octave-change", Integer.toString(-(up.semitones() / 12)));
    }
    xml.close();
  }

  private void clef(Clef clef) throws XMLStreamException {
    boolean treble = clef == Clef.TREBLE || clef == Clef.TREBLE_OCTAVE_DOWN;
    xml.open("clef");
    xml.text("sign", treble ? "G" : "F");
    xml.text("line", treble ? "2" : "4");
    if (clef == Clef.TREBLE_OCTAVE_DOWN || clef == Clef.BASS_OCTAVE_DOWN) {
      xml.text("clef-octave-change", "-1");
    }
    xml.close();
  }

  /** Tempo, and swing where there is any. */
  private void head(WrittenBar bar) throws XMLStreamException {
    boolean compound = bar.signature().compound();
    xml.open("direction", "placement", "above");
    xml.open("direction-type");
    xml.open("metronome");
    xml.text("beat-unit", "quarter");
    if (compound) {
      xml.empty("beat-unit-dot");
    }
    xml.text("per-minute", "%d".formatted(Math.round(score.bpm())));
    xml.close();
    xml.close();
    double quarters = score.bpm() * (compound ? 1.5 : 1);
    xml.empty("sound", "tempo", String.format(java.util.Locale.ROOT, "%.2f", quarters));
    xml.close();
    if (score.swing()) {
      xml.open("direction", "placement", "above");
      xml.open("direction-type");
      xml.text("words", "Swing");
      xml.close();
      xml.close();
    }
  }

  private boolean notes(WrittenBar bar, boolean heldBefore) throws XMLStreamException {
    List<WrittenChord> waiting = new ArrayList<>(bar.chords());
    List<String> accidentals = Accidentals.of(bar);
    List<List<String>> beams = Beams.of(bar);
    boolean held = heldBefore;
    for (int i = 0; i < bar.notes().size(); i++) {
      WrittenNote note = bar.notes().get(i);
      int end = note.startTicks() + note.ticks();
      while (!waiting.isEmpty() && waiting.get(0).startTicks() < end) {
        WrittenChord chord = waiting.remove(0);
        if (!chord.held()) {
          chords.write(chord, chord.startTicks() - note.startTicks());
        }
      }
      note(bar, i, held && !note.begins(), accidentals.get(i), beams.get(i));
      held = note.tiedOn();
    }
    return held;
  }

  private void note(
      WrittenBar bar, int index, boolean tiedFrom, String accidental, List<String> beams)
      throws XMLStreamException {
    WrittenNote note = bar.notes().get(index);
    xml.open("note");
    if (note.isRest()) {
      boolean wholeBar = note.ticks() == bar.ticks() && bar.notes().size() == 1;
      if (wholeBar) {
        xml.empty("rest", "measure", "yes");
      } else {
        xml.empty("rest");
      }
    } else {
      pitch(note.pitch().orElseThrow());
    }
    xml.text("duration", Integer.toString(note.ticks()));
    if (tiedFrom) {
      xml.empty("tie", "type", "stop");
    }
    if (note.tiedOn()) {
      xml.empty("tie", "type", "start");
    }
    xml.text("voice", "1");
    xml.text("type", note.value().type());
    for (int i = 0; i < note.value().dots(); i++) {
      xml.empty("dot");
    }
    if (!accidental.isEmpty()) {
      xml.text("accidental", accidental);
    }
    if (note.triplet()) {
      xml.open("time-modification");
      xml.text("actual-notes", "3");
      xml.text("normal-notes", "2");
      xml.close();
    }
    for (int i = 0; i < beams.size(); i++) {
      xml.text("beam", beams.get(i), "number", Integer.toString(i + 1));
    }
    notations(note, tiedFrom, Tuplets.at(bar, index));
    if (!note.syllable().isEmpty()) {
      xml.open("lyric");
      xml.text("syllabic", "single");
      xml.text("text", note.syllable());
      xml.close();
    }
    xml.close();
  }

  private void notations(WrittenNote note, boolean tiedFrom, Tuplets.Edge edge)
      throws XMLStreamException {
    if (!tiedFrom && !note.tiedOn() && edge == Tuplets.Edge.NONE) {
      return;
    }
    xml.open("notations");
    if (tiedFrom) {
      xml.empty("tied", "type", "stop");
    }
    if (note.tiedOn()) {
      xml.empty("tied", "type", "start");
    }
    if (edge == Tuplets.Edge.FIRST) {
      xml.empty("tuplet", "type", "start", "bracket", "yes");
    }
    if (edge == Tuplets.Edge.LAST) {
      xml.empty("tuplet", "type", "stop");
    }
    xml.close();
  }

  private void pitch(SpelledPitch pitch) throws XMLStreamException {
    xml.open("pitch");
    xml.text("step", String.valueOf(pitch.name().letter()));
    if (pitch.name().accidental() != 0) {
      xml.text("alter", Integer.toString(pitch.name().accidental()));
    }
    xml.text("octave", Integer.toString(pitch.octave()));
    xml.close();
  }
}
