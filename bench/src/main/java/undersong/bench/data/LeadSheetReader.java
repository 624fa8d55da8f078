package undersong.bench.data;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import javax.xml.parsers.DocumentBuilder;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/**
 * The little of compressed MusicXML that checks of spelling and numerals need: key, time signature,
 * chord symbols and the notes of the first part (first voice, without grace notes), in quarters.
 *
 * <p>Data: OpenEWLD (F. Simonetta, 2018), When in Rome (M. Gotham and others, TISMIR 2023). Format:
 * MusicXML 4.0, W3C Community Group.
 */
public final class LeadSheetReader {
  private LeadSheetReader() {}

  /**
   * @param fifths sharps (positive) or flats of the first key signature
   * @param mode as written; empty where it is not
   * @param meter "4/4"
   */
  public record LeadSheet(
      String id, int fifths, String mode, String meter, List<Symbol> symbols, List<Pitch> notes) {}

  /**
   * @param kind MusicXML's name of the chord's kind
   */
  public record Symbol(double startQuarter, String root, String kind, String bass) {}

  /** A spelled, sounding note. */
  public record Pitch(double startQuarter, double quarters, String name, int octave) {}

  /** Every compressed score below a folder, numbered in order of path. */
  public static Harvest<LeadSheet> readAll(Path folder, String prefix) throws IOException {
    List<Path> paths;
    try (Stream<Path> all = Files.walk(folder)) {
      paths = all.filter(p -> p.toString().endsWith(".mxl")).sorted().toList();
    }
    return Harvest.of(paths, p -> read(p, "%s-%03d".formatted(prefix, paths.indexOf(p) + 1)));
  }

  static LeadSheet read(Path path, String id) throws IOException {
    Document document = parse(unzip(path));
    Element part = (Element) document.getElementsByTagName("part").item(0);
    if (part == null) {
      throw new Harvest.Unreadable("holds no part");
    }
    return new Walk().read(part, id);
  }

  private static byte[] unzip(Path path) throws IOException {
    try (ZipInputStream zip = new ZipInputStream(Files.newInputStream(path))) {
      for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
        String name = entry.getName();
        if (!name.startsWith("META-INF") && name.matches(".*\\.(xml|musicxml)")) {
          return zip.readAllBytes();
        }
      }
    }
    throw new Harvest.Unreadable("holds no score");
  }

  private static Document parse(byte[] xml) throws IOException {
    try {
      DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
      factory.setFeature("http://apache.org/xml/features/nonvalidating/load-external-dtd", false);
      factory.setFeature("http://xml.org/sax/features/external-general-entities", false);
      DocumentBuilder builder = factory.newDocumentBuilder();
      builder.setErrorHandler(null);
      return builder.parse(new InputSource(new ByteArrayInputStream(xml)));
    } catch (ParserConfigurationException | SAXException cause) {
      throw new Harvest.Unreadable("is no MusicXML: " + cause.getMessage());
    }
  }

  /** Goes through a part once, keeping count of where in the bar it is. */
  private static final class Walk {
    private double divisions = 1;
    private double at;
    private int fifths;
    private String mode = "";
    private String meter = "";
    private boolean keyed;
    private final List<Symbol> symbols = new ArrayList<>();
    private final List<Pitch> notes = new ArrayList<>();

    LeadSheet read(Element part, String id) {
      for (Element bar : children(part, "measure")) {
        double furthest = at;
        for (Node node = bar.getFirstChild(); node != null; node = node.getNextSibling()) {
          if (node instanceof Element element) {
            visit(element);
            furthest = Math.max(furthest, at);
          }
        }
        at = furthest;
      }
      if (notes.isEmpty()) {
        throw new Harvest.Unreadable("holds no notes");
      }
      return new LeadSheet(id, fifths, mode, meter, List.copyOf(symbols), List.copyOf(notes));
    }

    private void visit(Element element) {
      switch (element.getTagName()) {
        case "attributes" -> attributes(element);
        case "backup" -> at -= number(element, "duration") / divisions;
        case "forward" -> at += number(element, "duration") / divisions;
        case "harmony" ->
            symbols.add(
                new Symbol(
                    at,
                    text(element, "root-step") + sign(element, "root-alter"),
                    text(element, "kind"),
                    text(element, "bass-step") + sign(element, "bass-alter")));
        case "note" -> note(element);
        default -> {}
      }
    }

    private void attributes(Element element) {
      if (!text(element, "divisions").isEmpty()) {
        divisions = number(element, "divisions");
      }
      if (!keyed && !text(element, "fifths").isEmpty()) {
        fifths = (int) number(element, "fifths");
        mode = text(element, "mode");
        meter = text(element, "beats") + "/" + text(element, "beat-type");
        keyed = true;
      }
    }

    private void note(Element element) {
      if (!children(element, "grace").isEmpty() || !children(element, "chord").isEmpty()) {
        return;
      }
      double quarters = number(element, "duration") / divisions;
      String voice = text(element, "voice");
      if (!text(element, "step").isEmpty() && (voice.isEmpty() || voice.equals("1"))) {
        notes.add(
            new Pitch(
                at,
                quarters,
                text(element, "step") + sign(element, "alter"),
                (int) number(element, "octave")));
      }
      at += quarters;
    }

    private static String sign(Element element, String tag) {
      String alter = text(element, tag);
      int semitones = alter.isEmpty() ? 0 : (int) Double.parseDouble(alter);
      return (semitones > 0 ? "#" : "b").repeat(Math.abs(semitones));
    }

    private static double number(Element element, String tag) {
      String text = text(element, tag);
      try {
        return Double.parseDouble(text);
      } catch (NumberFormatException notANumber) {
        throw new Harvest.Unreadable("<%s> is \"%s\", not a number".formatted(tag, text));
      }
    }

    private static String text(Element element, String tag) {
      NodeList found = element.getElementsByTagName(tag);
      return found.getLength() == 0 ? "" : found.item(0).getTextContent().strip();
    }

    private static List<Element> children(Element element, String tag) {
      List<Element> found = new ArrayList<>();
      for (Node n = element.getFirstChild(); n != null; n = n.getNextSibling()) {
        if (n instanceof Element child && child.getTagName().equals(tag)) {
          found.add(child);
        }
      }
      return found;
    }
  }
}
