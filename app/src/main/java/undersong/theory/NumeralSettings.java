package undersong.theory;

/**
 * How Roman numerals are written. Faces that show numerals name the setting beside them.
 *
 * @param minorReference what the numerals of minor are read against
 * @param inversions how the lowest note is told
 */
public record NumeralSettings(MinorReference minorReference, Inversions inversions) {
  /** What a degree without accidental means in minor. */
  public enum MinorReference {
    /** Major scale of the tonic: bIII, bVI, bVII; usual in pop. */
    MAJOR_SCALE,
    /** Natural minor: III, VI, VII, and #vii° on the raised leading tone. */
    NATURAL_MINOR
  }

  /** How the lowest note is told. */
  public enum Inversions {
    /** 6, 6/4, 7, 6/5, 4/3, 4/2; before an applied chord's slash without their own: V65/V. */
    FIGURES,
    /** Member after a slash (V7/3: its third is lowest); applied chords then say "of": V7 of V. */
    SLASH
  }

  public static final NumeralSettings DEFAULTS =
      new NumeralSettings(MinorReference.MAJOR_SCALE, Inversions.FIGURES);

  public NumeralSettings withMinorReference(MinorReference reference) {
    return new NumeralSettings(reference, inversions);
  }

  public NumeralSettings withInversions(Inversions style) {
    return new NumeralSettings(minorReference, style);
  }
}
