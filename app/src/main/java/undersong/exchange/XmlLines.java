package undersong.exchange;

import java.io.StringWriter;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

/** XML, an element a line, indented. */
final class XmlLines {
  private final StringWriter text = new StringWriter();
  private final XMLStreamWriter xml;
  private int depth;

  XmlLines(String documentType) throws XMLStreamException {
    xml = XMLOutputFactory.newInstance().createXMLStreamWriter(text);
    xml.writeStartDocument("UTF-8", "1.0");
    xml.writeCharacters("\n");
    xml.writeDTD(documentType);
  }

  /**
   * @param attributes names and values in turn
   */
  void open(String name, String... attributes) throws XMLStreamException {
    line();
    xml.writeStartElement(name);
    attributes(attributes);
    depth++;
  }

  void close() throws XMLStreamException {
    depth--;
    line();
    xml.writeEndElement();
  }

  void text(String name, String words, String... attributes) throws XMLStreamException {
    line();
    xml.writeStartElement(name);
    attributes(attributes);
    xml.writeCharacters(words);
    xml.writeEndElement();
  }

  void empty(String name, String... attributes) throws XMLStreamException {
    line();
    xml.writeEmptyElement(name);
    attributes(attributes);
  }

  String finish() throws XMLStreamException {
    xml.writeCharacters("\n");
    xml.writeEndDocument();
    xml.close();
    return text.toString();
  }

  private void line() throws XMLStreamException {
    xml.writeCharacters("\n" + "  ".repeat(depth));
  }

  private void attributes(String... attributes) throws XMLStreamException {
    for (int i = 0; i < attributes.length; i += 2) {
      xml.writeAttribute(attributes[i], attributes[i + 1]);
    }
  }
}
