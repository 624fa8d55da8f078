package undersong.expectation;

import java.util.List;
import undersong.reading.Candidate;
import undersong.time.Span;

/**
 * How hard one chord was to see coming, in bits: 0 = certain, 1 = even odds, 10 = one in a
 * thousand.
 *
 * @param chord what is heard, counted from the tonic that held before it
 * @param bits information content of degree, quality and bass, averaged over the chord's candidates
 * @param harmonyBits of these, what degree and third account for: sevenths and inversions are
 *     misheard more easily, and surprise less
 * @param leastHarmonyBits the least surprising of the likely candidates' degree and third: a chord
 *     that was misheard cannot hide behind its label
 * @param arrivalBits information content of the moment: that it arrives here, after the one before
 * @param expected the likeliest chords in its place (degree and family; bass at the root)
 */
public record ChordSurprise(
    Span span,
    KeyedChord chord,
    double bits,
    double harmonyBits,
    double leastHarmonyBits,
    double arrivalBits,
    List<Candidate<KeyedChord>> expected) {
  public ChordSurprise {
    if (!(bits >= 0 && harmonyBits >= 0 && leastHarmonyBits >= 0 && arrivalBits >= 0)) {
      throw new IllegalArgumentException(
          "Information content (%s, of it %s, at least %s; moment %s bits) must not be negative."
              .formatted(bits, harmonyBits, leastHarmonyBits, arrivalBits));
    }
    expected = List.copyOf(expected);
  }
}
