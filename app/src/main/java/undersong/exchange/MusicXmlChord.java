package undersong.exchange;

import javax.xml.stream.XMLStreamException;
import undersong.notation.WrittenChord;
import undersong.theory.ChordDegree;
import undersong.theory.ChordQuality;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.LeadSheet;
import undersong.theory.NoteName;
import undersong.theory.ScaleDegree;

/** One chord as MusicXML has it: a harmony for its symbol, another below for its numeral. */
final class MusicXmlChord {
  private final XmlLines xml;

  MusicXmlChord(XmlLines xml) {
    this.xml = xml;
  }

  void write(WrittenChord chord, int offsetTicks) throws XMLStreamException {
    if (!(chord.symbol() instanceof Chord named)) {
      return;
    }
    xml.open("harmony", "placement", "above");
    xml.open("root");
    step("root", named.root());
    xml.close();
    String symbol = LeadSheet.print(named);
    String suffix = suffix(symbol, named);
    xml.text("kind", kind(named.quality()), "text", suffix);
    if (named.isInverted()) {
      xml.open("bass");
      step("bass", named.bass());
      xml.close();
    }
    for (ChordDegree degree : named.degrees()) {
      if (!named.quality().degrees().contains(degree)) {
        degree(degree, "add");
      }
    }
    for (int omitted : named.omittedSemitones()) {
      if (omitted == 7) {
        degree(new ChordDegree(5, 0), "subtract");
      }
    }
    offset(offsetTicks);
    xml.close();
    if (chord.degree().isPresent()) {
      numeral(chord, chord.degree().get(), named, offsetTicks);
    }
  }

  private void numeral(WrittenChord chord, ScaleDegree degree, Chord named, int offsetTicks)
      throws XMLStreamException {
    xml.open("harmony", "placement", "below");
    xml.open("numeral");
    xml.text("numeral-root", Integer.toString(degree.step()), "text", chord.numeral());
    if (degree.alteration() != 0) {
      xml.text(
          "numeral-alter",
          Integer.toString(degree.alteration()),
          "location",
          "left",
          "print-object",
          "no");
    }
    xml.close();
    xml.text("kind", kind(named.quality()), "text", "");
    offset(offsetTicks);
    xml.close();
  }

  /** How long after the next note's beginning it arrives. */
  private void offset(int ticks) throws XMLStreamException {
    if (ticks > 0) {
      xml.text("offset", Integer.toString(ticks));
    }
  }

  private void step(String of, NoteName name) throws XMLStreamException {
    xml.text(of + "-step", String.valueOf(name.letter()));
    if (name.accidental() != 0) {
      xml.text(of + "-alter", Integer.toString(name.accidental()));
    }
  }

  private void degree(ChordDegree degree, String type) throws XMLStreamException {
    xml.open("degree", "print-object", "no");
    xml.text("degree-value", Integer.toString(degree.number()));
    xml.text("degree-alter", Integer.toString(degree.alteration()));
    xml.text("degree-type", type);
    xml.close();
  }

  /** What stands after the root and before a slash: how the program itself prints the chord. */
  private static String suffix(String symbol, Chord named) {
    String rest = symbol.substring(named.root().toString().length());
    String bass = "/" + named.bass();
    return named.isInverted() && rest.endsWith(bass)
        ? rest.substring(0, rest.length() - bass.length())
        : rest;
  }

  /** Values of kind-value in MusicXML 4.0. */
  private static String kind(ChordQuality quality) {
    return switch (quality) {
      case MAJOR -> "major";
      case MINOR -> "minor";
      case DIMINISHED -> "diminished";
      case AUGMENTED -> "augmented";
      case SUSPENDED_SECOND -> "suspended-second";
      case SUSPENDED_FOURTH -> "suspended-fourth";
      case DOMINANT_SEVENTH -> "dominant";
      case MAJOR_SEVENTH -> "major-seventh";
      case MINOR_SEVENTH -> "minor-seventh";
      case MINOR_MAJOR_SEVENTH -> "major-minor";
      case DIMINISHED_SEVENTH -> "diminished-seventh";
      case HALF_DIMINISHED_SEVENTH -> "half-diminished";
      case MAJOR_SIXTH -> "major-sixth";
      case MINOR_SIXTH -> "minor-sixth";
      case DOMINANT_NINTH -> "dominant-ninth";
      case MAJOR_NINTH -> "major-ninth";
      case MINOR_NINTH -> "minor-ninth";
      case FIFTH -> "power";
      case ROOT -> "other";
    };
  }
}
