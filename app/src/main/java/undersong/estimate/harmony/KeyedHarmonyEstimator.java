package undersong.estimate.harmony;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import undersong.estimate.Estimator;
import undersong.feature.Features;
import undersong.reading.ChordSpan;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.HarmonicFunction;
import undersong.reading.Harmony;
import undersong.reading.HarmonyEvent;
import undersong.reading.KeyRegion;
import undersong.reading.Keys;
import undersong.reading.Meter;
import undersong.reading.Reading;
import undersong.theory.ChordSymbol;
import undersong.theory.Numerals;
import undersong.theory.RomanNumeral;

/**
 * Sees every chord from its key: numeral, function, whether it is borrowed, and how early it comes.
 *
 * <p><b>In:</b> BEATS, METER, CHORDS, KEYS. <b>Out:</b> one event per chord span, and the chord
 * changes of each bar, an early chord counting for the bar it belongs to. <b>Silence</b>, or no
 * key, gives no events. No correction is said against it. <b>Cost:</b> O(chords * bars).
 */
public final class KeyedHarmonyEstimator implements Estimator<Harmony> {
  @Override
  public Derived<Harmony> estimate(Features features, Reading earlier, Corrections corrections) {
    return Derived.of(of(earlier));
  }

  /** The same for a reading that no recording stands behind, such as a chart. */
  public static Harmony of(Reading earlier) {
    Meter meter = earlier.get(Facet.METER);
    Keys keys = earlier.get(Facet.KEYS);
    List<ChordSpan> spans = earlier.get(Facet.CHORDS).spans();
    ArrivalTeller arrivals = new ArrivalTeller(earlier.get(Facet.BEATS).grid(), meter);
    NumeralTeller numerals = new NumeralTeller(spans);
    List<HarmonyEvent> events = new ArrayList<>();
    int[] changes = new int[meter.bars().size()];
    for (int i = 0; i < spans.size(); i++) {
      Optional<KeyRegion> region = regionAt(keys, spans.get(i).span().middleSeconds());
      if (region.isPresent()) {
        events.add(event(i, spans.get(i), region.get(), arrivals, numerals));
      }
      int bar = arrivals.barOf(spans.get(i).span());
      if (bar >= 0 && spans.get(i).symbol() instanceof ChordSymbol.Chord) {
        changes[bar]++;
      }
    }
    return new Harmony(events, java.util.Arrays.stream(changes).boxed().toList());
  }

  private static Optional<KeyRegion> regionAt(Keys keys, double seconds) {
    return keys.regions().stream().filter(r -> r.span().contains(seconds)).findFirst();
  }

  private static HarmonyEvent event(
      int index, ChordSpan span, KeyRegion region, ArrivalTeller arrivals, NumeralTeller numerals) {
    if (!(span.symbol() instanceof ChordSymbol.Chord chord)) {
      return new HarmonyEvent(
          span.span(),
          region.key(),
          Optional.empty(),
          HarmonicFunction.NONE,
          false,
          0,
          span.probability());
    }
    RomanNumeral numeral = numerals.numeral(index, chord, region.key());
    return new HarmonyEvent(
        span.span(),
        region.key(),
        Optional.of(numeral),
        NumeralTeller.function(numeral, region.key()),
        Numerals.isBorrowed(numeral, region.key()),
        arrivals.arrivalBeats(span.span()),
        span.probability() * region.probability());
  }
}
