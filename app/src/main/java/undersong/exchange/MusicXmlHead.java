package undersong.exchange;

import java.util.Optional;
import javax.xml.stream.XMLStreamException;
import undersong.notation.NoteValue;
import undersong.notation.WrittenBar;
import undersong.notation.WrittenPart.Clef;
import undersong.notation.WrittenScore;
import undersong.theory.Interval;
import undersong.theory.Key;

/** What stands before the notes of a bar in MusicXML: key, meter, clef, transposition, tempo. */
final class MusicXmlHead {
  private final WrittenScore score;
  private final XmlLines xml;

  MusicXmlHead(WrittenScore score, XmlLines xml) {
    this.score = score;
    this.xml = xml;
  }

  /**
   * What changes at the beginning of a bar: key and meter, at the first bar clef and transposition
   * too.
   */
  void attributes(WrittenBar bar, Optional<WrittenBar> before, Clef clef)
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
      String[] signature = bar.signature().toString().split("/", -1);
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
  void tempo(WrittenBar bar) throws XMLStreamException {
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
}
