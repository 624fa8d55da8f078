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
 * @param leastBits of the likeliest candidates, the least surprising one's: a chord that was
 *     misheard cannot hide behind its label
 * @param arrivalBits information content of the moment: that it arrives here, after the one before
 * @param expected the likeliest chords in its place (degree and family; bass at the root)
 */
public record ChordSurprise(
    Span span,
    KeyedChord chord,
    double bits,
    double leastBits,
    double arrivalBits,
    List<Candidate<KeyedChord>> expected) {
  public ChordSurprise {
    if (!(bits >= 0 && leastBits >= 0 && arrivalBits >= 0)) {
      throw new IllegalArgumentException(
          "Information content (%s, %s, %s bits) must not be negative."
              .formatted(bits, leastBits, arrivalBits));
    }
    expected = List.copyOf(expected);
  }
}
