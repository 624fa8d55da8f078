package undersong.study;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Correction;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.FacetValue;
import undersong.reading.KeyRegion;
import undersong.reading.Keys;
import undersong.reading.Reading;
import undersong.reading.SampleReadings;

/**
 * Estimators that hear {@link SampleReadings#full} whatever sounds, and lay corrections of chords
 * (those that meet a chord by half) and of the whole song's key over it.
 */
final class SaidEstimators {
  /** How often any of them has run. */
  final AtomicInteger runs = new AtomicInteger();

  Estimators estimators() {
    Estimators estimators = Estimators.silent().version("said");
    for (Facet<?> facet : Facet.IN_ORDER) {
      estimators = sampled(estimators, facet);
    }
    return estimators
        .with(Facet.CHORDS, (f, earlier, said) -> chords(said))
        .with(Facet.KEYS, (f, earlier, said) -> keys(said));
  }

  private <V extends FacetValue> Estimators sampled(Estimators estimators, Facet<V> facet) {
    Reading sample = SampleReadings.full();
    return estimators.with(
        facet,
        (features, earlier, said) -> {
          runs.incrementAndGet();
          return Derived.of(sample.get(facet));
        });
  }

  private Derived<Chords> chords(Corrections said) {
    runs.incrementAndGet();
    List<ChordSpan> spans = new ArrayList<>(SampleReadings.chords().spans());
    List<Correction> unplaced = new ArrayList<>();
    for (Correction.ChordOver over : said.ofKind(Correction.ChordOver.class)) {
      boolean placed = false;
      for (int i = 0; i < spans.size(); i++) {
        ChordSpan chord = spans.get(i);
        if (chord.span().overlapSeconds(over.span()) > chord.span().lengthSeconds() / 2) {
          spans.set(i, renamed(chord, over));
          placed = true;
        }
      }
      if (!placed) {
        unplaced.add(over);
      }
    }
    return new Derived<>(new Chords(spans), unplaced);
  }

  private static ChordSpan renamed(ChordSpan chord, Correction.ChordOver over) {
    return new ChordSpan(
        chord.span(),
        over.chord(),
        chord.third(),
        chord.fifth(),
        chord.seventh(),
        1,
        List.of(),
        chord.besides());
  }

  private Derived<Keys> keys(Corrections said) {
    runs.incrementAndGet();
    List<KeyRegion> regions = SampleReadings.keys().regions();
    for (Correction.KeyOver over : said.ofKind(Correction.KeyOver.class)) {
      regions = List.of(new KeyRegion(over.span(), over.key(), 1, List.of()));
    }
    return Derived.of(new Keys(regions));
  }
}
