package undersong.lesson;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.data.Offset.offset;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import undersong.notation.NotationSettings;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Repeat;
import undersong.reading.Repeats;
import undersong.reading.SampleReadings;
import undersong.reading.Space;
import undersong.technique.BarRange;
import undersong.theory.ChordQuality;
import undersong.theory.ChordSymbol;
import undersong.theory.NoteName;
import undersong.theory.NumeralSettings;
import undersong.theory.SyllableSettings;
import undersong.theory.TransposingInstrument;
import undersong.time.Span;

/** What the pictures of a lesson hold, read back from their SVG. */
class LessonPicturesTest {
  private static final Pattern START = Pattern.compile("^M([0-9.]+) ([0-9.]+)");
  private static final BarRange VERSE = new BarRange(1, 4);

  @Test
  void copiesStandUnderEachOtherAndOnlyWhatDiffersIsInFullInk() throws Exception {
    Document svg = parsed(StackPicture.of(VERSE, withOneRepeat(), NotationSettings.DEFAULTS));
    assertThat(texts(svg, "row")).containsExactly("Verse 1, 0:00", "Verse 2, 0:16");
    assertThat(texts(svg, "number")).containsExactly("1", "2", "3", "4", "9", "10", "11", "12");
    List<String> full = new ArrayList<>();
    List<String> soft = new ArrayList<>();
    for (Element chord : named(svg, "text", "symbol")) {
      boolean same = ((Element) chord.getParentNode()).getAttribute("class").equals("same");
      (same ? soft : full).add(chord.getTextContent());
    }
    assertThat(soft).as("of the second copy, all but the chord that changed").hasSize(3);
    assertThat(full).hasSize(5).contains("Bm");
    assertThat(named(svg, "circle", "gone")).hasSize(1);
    assertThat(svg.getElementsByTagName("title").item(0).getTextContent())
        .contains("Verse 2 from 0:16: Bm instead of B5 in bar 9, 1 notes of the tune differ");
  }

  @Test
  void chordsThatComeEarlyStandBeforeTheirBarLine() throws Exception {
    Document svg = parsed(StackPicture.of(VERSE, withOneRepeat(), NotationSettings.DEFAULTS));
    double bar = (Svg.WIDTH - 2.0) / 4;
    List<Double> places =
        named(svg, "text", "symbol").stream()
            .limit(4)
            .map(chord -> Double.parseDouble(chord.getAttribute("x")) - 2)
            .toList();
    assertThat(places.get(1)).isCloseTo(bar, offset(0.2));
    assertThat(places.get(3)).isCloseTo(2.875 * bar, offset(0.2));
  }

  @Test
  void chordsAreNamedForWhomTheLessonIsWritten() throws Exception {
    NotationSettings clarinet =
        new NotationSettings(
            NumeralSettings.DEFAULTS, SyllableSettings.DEFAULTS, TransposingInstrument.B_FLAT);
    Document svg = parsed(StackPicture.of(VERSE, withOneRepeat(), clarinet));
    assertThat(named(svg, "text", "symbol").get(0).getTextContent())
        .as("A minor, a whole tone higher on paper")
        .isEqualTo("Bm");
  }

  @Test
  void barsOutsideAllSectionsHaveNoStack() {
    assertThat(
            StackPicture.of(new BarRange(40, 42), SampleReadings.full(), NotationSettings.DEFAULTS))
        .isEmpty();
  }

  @Test
  void soundsStandLeftAboveTheMiddleAndTheBandFollowsTheWidth() throws Exception {
    Document svg = parsed(PlacePicture.over(new Span(0, 12), SampleReadings.full()));
    assertThat(startOf(named(svg, "path", "lead").get(0))[1]).isEqualTo(62.0);
    assertThat(startOf(named(svg, "path", "sound").get(0))[1])
        .as("0.7 to the left is above")
        .isCloseTo(62 - 0.7 * 44, offset(0.1));
    assertThat(named(svg, "path", "band")).hasSize(1);
    assertThat(svg.getElementsByTagName("title").item(0).getTextContent())
        .contains("0:00 lead the middle")
        .contains("0:02 line left");
  }

  @Test
  void whereNothingWasPlacedThereIsNoPicture() {
    Reading mono = SampleReadings.full().with(Facet.SPACE, Derived.of(Space.NONE));
    assertThat(PlacePicture.over(new Span(0, 12), mono)).isEmpty();
  }

  /** The second verse: another chord in its first bar, a note of the tune gone in its second. */
  private static Reading withOneRepeat() {
    ChordSymbol open = ChordSymbol.of(NoteName.parse("B"), ChordQuality.FIFTH);
    ChordSymbol minor = ChordSymbol.of(NoteName.parse("B"), ChordQuality.MINOR);
    List<Repeat.AlignedBar> bars = new ArrayList<>();
    for (int bar = 9; bar <= 12; bar++) {
      bars.add(new Repeat.AlignedBar(bar, List.of(bar - 8)));
    }
    Repeat repeat =
        new Repeat(
            new Span(16, 24),
            "A",
            2,
            1,
            bars,
            List.of(
                new Repeat.NoteChange(
                    Repeat.NoteFate.REMOVED,
                    "melody",
                    new NoteEvent(new Span(19, 19.5), 78, 0.8),
                    10,
                    3,
                    Optional.empty(),
                    Optional.empty(),
                    0.8)),
            List.of(new Repeat.ChordChange(new Span(16, 18), 9, 1, open, minor, 0.7)),
            List.of(),
            List.of(),
            List.of(),
            List.of());
    return SampleReadings.full().with(Facet.REPEATS, Derived.of(new Repeats(List.of(repeat))));
  }

  private static Document parsed(String svg) throws Exception {
    return DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(svg)));
  }

  private static List<String> texts(Document svg, String kind) {
    return named(svg, "text", kind).stream().map(Element::getTextContent).toList();
  }

  private static List<Element> named(Document svg, String tag, String kind) {
    NodeList all = svg.getElementsByTagName(tag);
    List<Element> named = new ArrayList<>();
    for (int i = 0; i < all.getLength(); i++) {
      Element one = (Element) all.item(i);
      if (one.getAttribute("class").equals(kind)) {
        named.add(one);
      }
    }
    return named;
  }

  private static double[] startOf(Element path) {
    Matcher start = START.matcher(path.getAttribute("d"));
    assertThat(start.find()).isTrue();
    return new double[] {Double.parseDouble(start.group(1)), Double.parseDouble(start.group(2))};
  }
}
