package undersong.shelf;

import java.util.Locale;

/** Where a song on the shelf comes from. */
public enum Origin {
  /** Heard from its sound. */
  RECORDING,
  /** A published chord chart: harmony and form, no sound. */
  CHART,
  /** What somebody remembers of it: unchecked, no sound. */
  MEMORY;

  /** As it is stored and served. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  public static Origin named(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT));
  }
}
