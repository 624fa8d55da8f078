package undersong.estimate.harmony;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import undersong.estimate.SoundedFeatures;
import undersong.reading.Bar;
import undersong.reading.Beats;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.HarmonicFunction;
import undersong.reading.Harmony;
import undersong.reading.HarmonyEvent;
import undersong.reading.KeyRegion;
import undersong.reading.Keys;
import undersong.reading.Member;
import undersong.reading.Meter;
import undersong.reading.Reading;
import undersong.reading.TimeSignature;
import undersong.theory.HarteSyntax;
import undersong.theory.Key;
import undersong.theory.Numerals;
import undersong.time.BeatGrid;
import undersong.time.Span;

/** Facts of the trade (common practice, no source), at 120 bpm in 4/4. */
class KeyedHarmonyEstimatorTest {
  private static final double BAR_SECONDS = 2;

  /** One chord a bar; every one but the first comes early by that many beats. */
  private static Harmony hear(String keyName, double earlyBeats, String... chords) {
    List<ChordSpan> spans = new ArrayList<>();
    List<Bar> bars = new ArrayList<>();
    double[] beats = new double[4 * chords.length];
    double duration = BAR_SECONDS * chords.length;
    for (int i = 0; i < chords.length; i++) {
      double start = i == 0 ? 0 : BAR_SECONDS * i - earlyBeats / 2;
      double end = i == chords.length - 1 ? duration : BAR_SECONDS * (i + 1) - earlyBeats / 2;
      spans.add(
          new ChordSpan(
              new Span(start, end),
              HarteSyntax.parse(chords[i]),
              Member.SOUNDING,
              Member.SOUNDING,
              Member.ABSENT,
              0.9,
              List.of(),
              Optional.empty()));
      bars.add(
          new Bar(
              i + 1,
              4 * i,
              4,
              TimeSignature.FOUR_FOUR,
              new Span(BAR_SECONDS * i, BAR_SECONDS * (i + 1))));
    }
    for (int i = 0; i < beats.length; i++) {
      beats[i] = 0.5 * i;
    }
    KeyRegion region = new KeyRegion(new Span(0, duration), Key.parse(keyName), 0.8, List.of());
    Reading earlier =
        Reading.empty(duration)
            .with(Facet.BEATS, Derived.of(new Beats(BeatGrid.of(beats), 2, 1, 1, List.of())))
            .with(Facet.METER, Derived.of(new Meter(bars, 1, List.of())))
            .with(Facet.CHORDS, Derived.of(new Chords(spans)))
            .with(Facet.KEYS, Derived.of(new Keys(List.of(region))));
    return new KeyedHarmonyEstimator()
        .estimate(new SoundedFeatures(1, 0).features(), earlier, Corrections.NONE)
        .value();
  }

  private static List<String> numerals(Harmony harmony) {
    return harmony.events().stream()
        .map(event -> Numerals.print(event.numeral().orElseThrow(), event.key()))
        .toList();
  }

  @Test
  void namesChordsFromTheirKey() {
    Harmony harmony = hear("C major", 0, "C:maj", "A:min", "D:min7", "G:7");
    assertThat(numerals(harmony)).containsExactly("I", "vi", "ii7", "V7");
    assertThat(harmony.events())
        .extracting(HarmonyEvent::function)
        .containsExactly(
            HarmonicFunction.TONIC,
            HarmonicFunction.TONIC,
            HarmonicFunction.PREDOMINANT,
            HarmonicFunction.DOMINANT);
    assertThat(harmony.changesPerBar()).containsExactly(1, 1, 1, 1);
  }

  @Test
  void hearsAnAppliedDominantOnlyWhereItsTargetFollows() {
    Harmony applied = hear("C major", 0, "C:maj", "D:7", "G:maj", "C:maj");
    assertThat(applied.events().get(1).function()).isEqualTo(HarmonicFunction.APPLIED_DOMINANT);
    assertThat(applied.events().get(1).numeral().orElseThrow().appliedTo()).isPresent();
    Harmony color = hear("C major", 0, "C:maj", "D:7", "F:maj", "C:maj");
    assertThat(color.events().get(1).numeral().orElseThrow().appliedTo()).isEmpty();
  }

  @Test
  void hearsNoAppliedDominantsInABlues() {
    Harmony blues = hear("G major", 0, "G:7", "C:7", "G:7", "D:7");
    assertThat(blues.events())
        .allMatch(event -> event.numeral().orElseThrow().appliedTo().isEmpty());
  }

  /** Common practice, no source: a tonic that always has its lowered seventh leads nowhere. */
  @Test
  void hearsNoDominantInATonicThatRestsOnItsSeventh() {
    Harmony rest = hear("C major", 0, "C:7", "F:maj", "C:7", "G:maj", "A:min", "F:maj");
    assertThat(rest.events().get(0).numeral().orElseThrow().appliedTo()).isEmpty();
    Harmony leads = hear("C major", 0, "C:maj", "C:7", "F:maj", "G:maj", "C:maj");
    assertThat(leads.events().get(1).numeral().orElseThrow().appliedTo()).isPresent();
  }

  /** A raised leading tone in minor is no borrowing; a minor four in major is. */
  @Test
  void tellsBorrowedChords() {
    Harmony minor = hear("A harmonic minor", 0, "A:min", "E:7");
    assertThat(minor.events().get(1).borrowed()).isFalse();
    assertThat(minor.events().get(1).function()).isEqualTo(HarmonicFunction.DOMINANT);
    Harmony major = hear("C major", 0, "C:maj", "F:min", "C:maj");
    assertThat(major.events().get(1).borrowed()).isTrue();
  }

  @Test
  void measuresHowEarlyChordsArrive() {
    for (double early : new double[] {0, 0.5, 1}) {
      Harmony harmony = hear("C major", early, "C:maj", "F:maj", "G:maj", "C:maj");
      assertThat(harmony.events().subList(1, 4))
          .as("early by %s", early)
          .allMatch(event -> event.arrivalBeats() == -early || early == 0);
      assertThat(harmony.changesPerBar()).containsExactly(1, 1, 1, 1);
    }
  }

  @Test
  void saysNothingWhereNoChordSounds() {
    HarmonyEvent event = hear("C major", 0, "N", "N").events().get(0);
    assertThat(event.numeral()).isEmpty();
    assertThat(event.function()).isEqualTo(HarmonicFunction.NONE);
  }
}
