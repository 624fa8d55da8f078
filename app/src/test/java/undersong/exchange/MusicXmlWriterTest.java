package undersong.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.Stream;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilder;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.transform.dom.DOMSource;
import javax.xml.transform.stream.StreamSource;
import javax.xml.validation.Schema;
import javax.xml.validation.SchemaFactory;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.w3c.dom.NodeList;
import org.w3c.dom.ls.LSInput;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;
import undersong.notation.NotationSettings;
import undersong.notation.Notator;
import undersong.notation.WrittenScore;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.render.DemoSong;
import undersong.render.DemoSongs;
import undersong.theory.NumeralSettings;
import undersong.theory.SyllableSettings;
import undersong.theory.TransposingInstrument;

/**
 * Against the schema of MusicXML 4.0 (W3C Music Notation Community Group, musicxml.xsd, as a
 * library on Maven Central carries it).
 */
class MusicXmlWriterTest {
  private static final SongFacts FACTS = new SongFacts("A < B & \"C\"", "Somebody", "1", "");
  private static Schema schema;

  @BeforeAll
  static void loadTheSchema() throws IOException, SAXException {
    SchemaFactory factory = SchemaFactory.newInstance(XMLConstants.W3C_XML_SCHEMA_NS_URI);
    factory.setResourceResolver((type, space, publicId, systemId, base) -> imported(systemId));
    try (InputStream xsd =
        MusicXmlWriterTest.class.getResourceAsStream("/META-INF/jaxb/xsd/musicxml.xsd")) {
      schema = factory.newSchema(new StreamSource(xsd));
    }
  }

  static Stream<DemoSong> songs() {
    return DemoSongs.all().stream();
  }

  @ParameterizedTest
  @MethodSource("songs")
  void theSchemaHasNothingToSay(DemoSong song) {
    for (TransposingInstrument instrument : TransposingInstrument.values()) {
      NotationSettings settings =
          new NotationSettings(NumeralSettings.DEFAULTS, SyllableSettings.DEFAULTS, instrument);
      String xml = MusicXmlWriter.print(Notator.write(reading(song), settings), FACTS);
      assertThatCode(() -> schema.newValidator().validate(new DOMSource(parse(xml))))
          .as("%s for %s", song.id(), instrument)
          .doesNotThrowAnyException();
    }
  }

  @Test
  void theSchemaWouldHaveSpoken() throws IOException, SAXException {
    String xml = MusicXmlWriter.print(score(), FACTS).replace("<step>D</step>", "<step>H</step>");
    Document broken = parse(xml);
    assertThatThrownBy(() -> schema.newValidator().validate(new DOMSource(broken)))
        .isInstanceOf(SAXException.class)
        .hasMessageContaining("H");
  }

  @ParameterizedTest
  @MethodSource("songs")
  void everyNoteOfTheTuneIsThereOnceAtItsPitch(DemoSong song) throws IOException, SAXException {
    Reading reading = reading(song);
    Document document =
        parse(MusicXmlWriter.print(Notator.write(reading, NotationSettings.DEFAULTS), FACTS));
    Element melody = (Element) document.getElementsByTagName("part").item(0);
    List<Integer> written =
        elements(melody, "note")
            .filter(note -> elements(note, "rest").findAny().isEmpty())
            .filter(
                note ->
                    elements(note, "tie").noneMatch(tie -> tie.getAttribute("type").equals("stop")))
            .map(MusicXmlWriterTest::midi)
            .toList();
    List<Integer> sung =
        reading.get(Facet.MELODY).notes().stream()
            .map(NoteEvent::midiPitch)
            .map(pitch -> (int) Math.round(pitch))
            .toList();
    assertThat(written).isEqualTo(sung);
  }

  @Test
  void everyBarLastsAsLongAsItsSignatureSays() throws IOException, SAXException {
    Reading fourFour = reading(DemoSongs.named("count-the-ferries"));
    WrittenScore score = Notator.write(fourFour, NotationSettings.DEFAULTS);
    Document document = parse(MusicXmlWriter.print(score, FACTS));
    elements(document.getDocumentElement(), "measure")
        .filter(measure -> !measure.hasAttribute("implicit"))
        .forEach(
            measure ->
                assertThat(
                        elements(measure, "duration")
                            .mapToInt(d -> Integer.parseInt(d.getTextContent()))
                            .sum())
                    .isEqualTo(4 * 24));
  }

  @Test
  void chordsNumeralsAndSyllablesAreThere() throws IOException, SAXException {
    Document document = parse(MusicXmlWriter.print(score(), FACTS));
    Element root = document.getDocumentElement();
    assertThat(elements(root, "kind").map(Element::getTextContent)).contains("minor", "major");
    assertThat(elements(root, "lyric")).isNotEmpty();
    assertThat(root.getElementsByTagName("work-title").item(0).getTextContent())
        .isEqualTo(FACTS.title());
  }

  @Test
  void anEmptyScoreIsRefused() {
    assertThatThrownBy(
            () ->
                MusicXmlWriter.print(
                    new WrittenScore(0, false, TransposingInstrument.CONCERT, List.of()),
                    SongFacts.UNKNOWN))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("nothing to write");
  }

  private static WrittenScore score() {
    return Notator.write(reading(DemoSongs.all().get(0)), NotationSettings.DEFAULTS);
  }

  private static Reading reading(DemoSong song) {
    return song.truth().reading();
  }

  private static int midi(Element note) {
    String step = elements(note, "step").findFirst().orElseThrow().getTextContent();
    int alter =
        elements(note, "alter")
            .findFirst()
            .map(a -> Integer.parseInt(a.getTextContent()))
            .orElse(0);
    int octave =
        Integer.parseInt(elements(note, "octave").findFirst().orElseThrow().getTextContent());
    int[] semitones = {9, 11, 0, 2, 4, 5, 7};
    return 12 * (octave + 1) + semitones[step.charAt(0) - 'A'] + alter;
  }

  private static Stream<Element> elements(Element parent, String name) {
    NodeList found = parent.getElementsByTagName(name);
    return Stream.iterate(0, i -> i < found.getLength(), i -> i + 1)
        .map(found::item)
        .filter(node -> node.getNodeType() == Node.ELEMENT_NODE)
        .map(Element.class::cast);
  }

  private static Document parse(String xml) throws IOException, SAXException {
    try {
      DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
      factory.setNamespaceAware(true);
      DocumentBuilder builder = factory.newDocumentBuilder();
      // The document type names an address; nothing is fetched.
      builder.setEntityResolver((publicId, systemId) -> new InputSource(new StringReader("")));
      return builder.parse(new ByteArrayInputStream(xml.getBytes(StandardCharsets.UTF_8)));
    } catch (javax.xml.parsers.ParserConfigurationException impossible) {
      throw new IllegalStateException(impossible);
    }
  }

  /** The two schemas it builds on, as far as it names them. */
  private static LSInput imported(String systemId) {
    String space =
        systemId.endsWith("xlink.xsd") ? "http://www.w3.org/1999/xlink" : XMLConstants.XML_NS_URI;
    StringBuilder xsd =
        new StringBuilder(
            "<xs:schema xmlns:xs=\"http://www.w3.org/2001/XMLSchema\" targetNamespace=\""
                + space
                + "\">");
    for (String name :
        List.of("href", "type", "role", "title", "show", "actuate", "lang", "space")) {
      xsd.append("<xs:attribute name=\"").append(name).append("\" type=\"xs:string\"/>");
    }
    return new SchemaText(xsd.append("</xs:schema>").toString(), systemId);
  }
}
