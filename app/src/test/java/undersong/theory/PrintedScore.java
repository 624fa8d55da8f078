package undersong.theory;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Enumeration;
import java.util.List;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.xml.sax.SAXException;

/** Notes and bars of a compressed MusicXML score, read as far as a comparison needs. */
final class PrintedScore {
  /** A note in quarters from the start, as printed. */
  record Note(double startQuarters, double lengthQuarters, SpelledPitch pitch) {
    double overlap(double from, double to) {
      return Math.max(
          0, Math.min(to, startQuarters + lengthQuarters) - Math.max(from, startQuarters));
    }
  }

  private record PrintedBar(
      int number, double startQuarters, double lengthQuarters, int upper, int lower) {
    double quartersPerBeat() {
      return lower == 8 && upper % 3 == 0 ? 1.5 : 4.0 / lower;
    }
  }

  private final List<Note> notes = new ArrayList<>();
  private final List<PrintedBar> bars = new ArrayList<>();

  private PrintedScore() {}

  static PrintedScore read(Path mxl) throws IOException {
    try (ZipFile zip = new ZipFile(mxl.toFile())) {
      Enumeration<? extends ZipEntry> entries = zip.entries();
      while (entries.hasMoreElements()) {
        ZipEntry entry = entries.nextElement();
        if (entry.getName().endsWith("xml") && !entry.getName().startsWith("META-INF")) {
          try (InputStream xml = zip.getInputStream(entry)) {
            return parse(xml);
          }
        }
      }
    }
    throw new IOException("No score in " + mxl);
  }

  private static PrintedScore parse(InputStream xml) throws IOException {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    try {
      factory.setFeature("http://apache.org/xml/features/nonvalidating/load-external-dtd", false);
      Element root = factory.newDocumentBuilder().parse(xml).getDocumentElement();
      PrintedScore score = new PrintedScore();
      for (Element part : children(root, "part")) {
        score.part(part);
      }
      return score;
    } catch (ParserConfigurationException | SAXException e) {
      throw new IOException(e);
    }
  }

  private void part(Element part) {
    boolean first = bars.isEmpty();
    double divisions = 1;
    int upper = 4;
    int lower = 4;
    int number = 0;
    double start = 0;
    int index = 0;
    for (Element measure : children(part, "measure")) {
      double position = 0;
      double reached = 0;
      double chordStart = 0;
      for (Element element : children(measure, null)) {
        double duration = number(element, "duration", 0) / divisions;
        switch (element.getTagName()) {
          case "attributes" -> {
            divisions = number(element, "divisions", divisions);
            for (Element time : children(element, "time")) {
              upper = (int) number(time, "beats", upper);
              lower = (int) number(time, "beat-type", lower);
            }
            if (!children(element, "transpose").isEmpty()) {
              throw new IllegalStateException("Transposing parts are not read.");
            }
          }
          case "backup" -> position -= duration;
          case "forward" -> position += duration;
          case "note" -> {
            boolean inChord = !children(element, "chord").isEmpty();
            double at = inChord ? chordStart : position;
            for (Element pitch : children(element, "pitch")) {
              if (duration > 0) {
                notes.add(new Note(start + at, duration, pitch(pitch)));
              }
            }
            if (!inChord) {
              chordStart = position;
              position += duration;
            }
          }
          default -> {}
        }
        reached = Math.max(reached, position);
      }
      String label = measure.getAttribute("number");
      number = label.matches("\\d+") ? Integer.parseInt(label) : number;
      if (first) {
        bars.add(new PrintedBar(number, start, reached, upper, lower));
      }
      start += first ? reached : bars.get(index).lengthQuarters();
      index++;
    }
  }

  private static SpelledPitch pitch(Element pitch) {
    String step = children(pitch, "step").get(0).getTextContent();
    NoteName name = NoteName.parse(step.strip()).up(7 * (int) number(pitch, "alter", 0));
    return new SpelledPitch(name, (int) number(pitch, "octave", 4));
  }

  private static double number(Element element, String name, double otherwise) {
    List<Element> found = children(element, name);
    return found.isEmpty() ? otherwise : Double.parseDouble(found.get(0).getTextContent().strip());
  }

  private static List<Element> children(Element element, String name) {
    List<Element> found = new ArrayList<>();
    for (Node node = element.getFirstChild(); node != null; node = node.getNextSibling()) {
      if (node instanceof Element child && (name == null || child.getTagName().equals(name))) {
        found.add(child);
      }
    }
    return found;
  }

  List<Note> notes() {
    return List.copyOf(notes);
  }

  double endQuarters() {
    PrintedBar last = bars.get(bars.size() - 1);
    return last.startQuarters() + last.lengthQuarters();
  }

  /** Place of a beat (1 = first) of a numbered bar; NaN where the score has no such bar. */
  double quartersAt(int bar, double beat) {
    for (PrintedBar printed : bars) {
      if (printed.number() == bar) {
        double missing =
            bar == 0 ? 4.0 * printed.upper() / printed.lower() - printed.lengthQuarters() : 0;
        return printed.startQuarters() + (beat - 1) * printed.quartersPerBeat() - missing;
      }
    }
    return Double.NaN;
  }
}
