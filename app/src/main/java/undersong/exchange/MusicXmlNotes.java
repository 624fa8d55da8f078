package undersong.exchange;

import java.util.ArrayList;
import java.util.List;
import javax.xml.stream.XMLStreamException;
import undersong.notation.WrittenBar;
import undersong.notation.WrittenChord;
import undersong.notation.WrittenNote;
import undersong.theory.SpelledPitch;

/** The notes, rests and chords of a bar in MusicXML. */
final class MusicXmlNotes {
  private final XmlLines xml;
  private final MusicXmlChord chords;

  MusicXmlNotes(XmlLines xml) {
    this.xml = xml;
    this.chords = new MusicXmlChord(xml);
  }

  /**
   * @param heldBefore whether the bar begins within a note that is tied into it
   * @return whether its last note is tied on
   */
  boolean write(WrittenBar bar, boolean heldBefore) throws XMLStreamException {
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
