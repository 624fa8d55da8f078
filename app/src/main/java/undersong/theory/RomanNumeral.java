package undersong.theory;

import java.util.Optional;

/**
 * A chord seen from a tonic. Always held against the major scale of that tonic (bVII, bIII),
 * however it is printed.
 *
 * @param root degree of the chord's root above the tonic, or above {@code appliedTo}
 * @param quality its quality; one without a third is printed in a caseless form
 * @param bass degree of the lowest note above the same tonic as {@code root}
 * @param appliedTo the degree this chord is dominant of (V/5), if it is heard so
 */
public record RomanNumeral(
    ScaleDegree root, ChordQuality quality, ScaleDegree bass, Optional<ScaleDegree> appliedTo) {
  public RomanNumeral {
    if (root == null || quality == null || bass == null || appliedTo == null) {
      throw new IllegalArgumentException("A Roman numeral needs a root, a quality and a bass.");
    }
  }

  public boolean isInverted() {
    return root.semitones() != bass.semitones();
  }
}
