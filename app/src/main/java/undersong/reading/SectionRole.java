package undersong.reading;

/** What the trade calls a section. */
public enum SectionRole {
  INTRO,
  VERSE,
  PRECHORUS,
  CHORUS,
  BRIDGE,
  BREAK,
  SOLO,
  OUTRO,
  OTHER;

  public String words() {
    return name().toLowerCase(java.util.Locale.ROOT);
  }
}
