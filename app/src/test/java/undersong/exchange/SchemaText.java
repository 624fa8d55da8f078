package undersong.exchange;

import java.io.InputStream;
import java.io.Reader;
import java.io.StringReader;
import org.w3c.dom.ls.LSInput;

/** A schema that stands in memory, handed to the validator; of the many ways only one is used. */
record SchemaText(String text, String name) implements LSInput {
  @Override
  public Reader getCharacterStream() {
    return new StringReader(text);
  }

  @Override
  public void setCharacterStream(Reader stream) {}

  @Override
  public InputStream getByteStream() {
    return null;
  }

  @Override
  public void setByteStream(InputStream stream) {}

  @Override
  public String getStringData() {
    return text;
  }

  @Override
  public void setStringData(String data) {}

  @Override
  public String getSystemId() {
    return name;
  }

  @Override
  public void setSystemId(String id) {}

  @Override
  public String getPublicId() {
    return null;
  }

  @Override
  public void setPublicId(String id) {}

  @Override
  public String getBaseURI() {
    return null;
  }

  @Override
  public void setBaseURI(String uri) {}

  @Override
  public String getEncoding() {
    return null;
  }

  @Override
  public void setEncoding(String encoding) {}

  @Override
  public boolean getCertifiedText() {
    return false;
  }

  @Override
  public void setCertifiedText(boolean certified) {}
}
