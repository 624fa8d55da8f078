package undersong.exchange;

import java.util.Optional;
import javax.xml.stream.XMLStreamException;
import undersong.notation.WrittenBar;
import undersong.notation.WrittenPart;
import undersong.notation.WrittenScore;

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
  private final MusicXmlHead head;
  private final MusicXmlNotes notes;

  private MusicXmlWriter(WrittenScore score) throws XMLStreamException {
    this.score = score;
    this.xml = new XmlLines(TYPE);
    this.head = new MusicXmlHead(score, xml);
    this.notes = new MusicXmlNotes(xml);
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
      head.attributes(bar, before, part.clef());
      if (before.isEmpty() && first) {
        head.tempo(bar);
      }
      held = notes.write(bar, held);
      xml.close();
      before = Optional.of(bar);
    }
    xml.close();
  }
}
