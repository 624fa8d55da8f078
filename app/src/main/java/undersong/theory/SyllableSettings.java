package undersong.theory;

/**
 * How movable-do syllables are sung.
 *
 * @param minor where minor begins
 * @param modes where dorian and the like begin
 */
public record SyllableSettings(Minor minor, Modes modes) {
  /** Where minor begins. */
  public enum Minor {
    /** la ti do re mi fa sol; raised: fi, si. */
    LA_BASED,
    /** do re me fa sol le te; raised: la, ti. */
    DO_BASED
  }

  /** Where dorian, phrygian, lydian and mixolydian begin. */
  public enum Modes {
    /** From their own syllable: dorian from re, phrygian mi, lydian fa, mixolydian sol. */
    OWN_SYLLABLE,
    /**
     * Like minor or major with one altered note: la-based dorian has fi, phrygian te; lydian has fi
     * and mixolydian te from do.
     */
    ALTERED
  }

  public static final SyllableSettings DEFAULTS =
      new SyllableSettings(Minor.LA_BASED, Modes.OWN_SYLLABLE);

  public SyllableSettings withMinor(Minor start) {
    return new SyllableSettings(start, modes);
  }

  public SyllableSettings withModes(Modes start) {
    return new SyllableSettings(minor, start);
  }
}
