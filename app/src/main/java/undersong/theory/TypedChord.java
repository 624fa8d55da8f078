package undersong.theory;

/** A chord as somebody types it: in Harte's grammar or as on a lead sheet. */
public final class TypedChord {
  private TypedChord() {}

  /**
   * Reads either form. With a colon, and for {@code N} and {@code X}, it is Harte's; else a lead
   * sheet's, and Harte's only where that fails ({@code C/3}). Throws {@link
   * IllegalArgumentException}, naming what could not be read.
   */
  public static ChordSymbol parse(String text) {
    String plain = text.strip();
    if (plain.indexOf(':') >= 0 || plain.equals("N") || plain.equals("X")) {
      return HarteSyntax.parse(plain);
    }
    try {
      return LeadSheet.parse(plain);
    } catch (IllegalArgumentException noLeadSheet) {
      try {
        return HarteSyntax.parse(plain);
      } catch (IllegalArgumentException neither) {
        throw noLeadSheet;
      }
    }
  }
}
