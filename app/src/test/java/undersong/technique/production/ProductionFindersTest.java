package undersong.technique.production;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import undersong.reading.BarTexture;
import undersong.reading.BarWidth;
import undersong.reading.Derived;
import undersong.reading.Ducking;
import undersong.reading.Dynamics;
import undersong.reading.Echo;
import undersong.reading.Echoes;
import undersong.reading.Facet;
import undersong.reading.Gesture;
import undersong.reading.Layer;
import undersong.reading.LayerKind;
import undersong.reading.NoteValue;
import undersong.reading.PlacedEvent;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.reading.SoundSource;
import undersong.reading.Space;
import undersong.reading.Texture;
import undersong.technique.Calibration;
import undersong.technique.Finding;
import undersong.technique.Technique;
import undersong.technique.Techniques;
import undersong.technique.Texts;
import undersong.technique.WrittenSong;
import undersong.time.Span;

/**
 * The conditions of the catalogue's production table (common practice, no source, but for the
 * panning index of Avendano 2003) on readings written by hand: 120 bpm, 4/4, a verse of eight bars
 * and a chorus of eight.
 */
final class ProductionFindersTest {
  private static final String EIGHT = "C | F | G | C | Am | F | G | C";

  private static Reading song() {
    return WrittenSong.in("C major")
        .section(SectionRole.VERSE, "A", EIGHT)
        .section(SectionRole.CHORUS, "B", EIGHT)
        .reading();
  }

  private static List<String> told(Reading reading) {
    return WrittenSong.told(ProductionFinders.all(), reading);
  }

  private static PlacedEvent note(double start, double end, int midi, double place) {
    return new PlacedEvent(
        new Span(start, end), SoundSource.LINE, OptionalDouble.of(midi), 100, 200, place, -10, 0.9);
  }

  private static PlacedEvent lead(double place) {
    return new PlacedEvent(
        new Span(0, 32), SoundSource.LEAD, OptionalDouble.empty(), 100, 200, place, -3, 0.9);
  }

  private static Reading placed(List<PlacedEvent> events) {
    return song().with(Facet.SPACE, Derived.of(new Space(List.of(), events, 0)));
  }

  private static List<PlacedEvent> jumps(double place) {
    List<PlacedEvent> events = new ArrayList<>();
    for (int bar = 8; bar < 14; bar++) {
      double side = bar % 2 == 0 ? -place : place;
      events.add(note(2 * bar, 2 * bar + 0.2, 79, side));
      events.add(note(2 * bar + 0.25, 2 * bar + 0.45, 81, side));
    }
    return events;
  }

  @Test
  void tellsShortLinesThatChangeSidesAroundALeadInTheMiddle() {
    List<PlacedEvent> events = jumps(0.7);
    events.add(0, lead(0.02));
    assertThat(told(placed(events))).containsExactly("alternating-pan 9-13");
    List<PlacedEvent> wandering = jumps(0.7);
    wandering.add(0, lead(0.6));
    assertThat(told(placed(wandering))).isEmpty();
    assertThat(told(placed(jumps(0.25)))).isEmpty();
    List<PlacedEvent> oneSide = jumps(0.7).stream().filter(e -> e.placement() > 0).toList();
    assertThat(told(placed(oneSide))).isEmpty();
  }

  /** Notes of a line that is played twice are seen now on one side and now on the other. */
  @Test
  void doubtsThatSidesChangeWhereALineIsPlayedTwice() {
    Reading jumping = placed(jumps(0.7));
    Reading doubled =
        jumping.with(
            Facet.ECHOES,
            echoing(Echo.Kind.DOUBLE, new Span(16, 32), 0.015, 0.006, 0.7)
                .find(Facet.ECHOES)
                .map(Derived::of)
                .orElseThrow());

    assertThat(sureOfPan(doubled)).isLessThan(0.6 * sureOfPan(jumping));
  }

  private static double sureOfPan(Reading reading) {
    return new Techniques(ProductionFinders.all(), Calibration.NONE)
        .in(reading).stream()
            .filter(finding -> finding.technique() == Technique.ALTERNATING_PAN)
            .mapToDouble(Finding::probability)
            .findFirst()
            .orElseThrow();
  }

  @Test
  void tellsNothingOfAnAccompanimentThatStaysWhereItIs() {
    List<PlacedEvent> events = new ArrayList<>();
    for (double t = 0; t < 31; t += 0.25) {
      events.add(note(t, t + 0.25, 60 + (int) (4 * t) % 3, -0.6));
      events.add(note(t, t + 0.25, 72 + (int) (4 * t) % 3, 0.6));
    }
    assertThat(told(placed(events))).isEmpty();
  }

  private static BarWidth width(double sideToMidDb) {
    return new BarWidth(
        sideToMidDb, Collections.nCopies(6, new BarWidth.BandWidth(sideToMidDb, 0.5)));
  }

  private static Reading wide(double verseDb, double chorusDb) {
    List<BarWidth> bars = new ArrayList<>(Collections.nCopies(8, width(verseDb)));
    bars.addAll(Collections.nCopies(8, width(chorusDb)));
    return song()
        .with(
            Facet.DYNAMICS,
            Derived.of(
                new Dynamics(-14, 5, Collections.nCopies(16, -14.0), Collections.nCopies(16, 2.0))))
        .with(Facet.SPACE, Derived.of(new Space(bars, List.of(), 0)));
  }

  @Test
  void tellsAChorusThatOpensToTheSides() {
    assertThat(told(wide(-18, -10))).containsExactly("width-change 9-16");
    assertThat(told(wide(-10, -18))).containsExactly("width-change 9-16");
    assertThat(told(wide(-12, -10.5))).isEmpty();
  }

  private static BarTexture bar(double subDb) {
    return new BarTexture(2, List.of(subDb, -20.0, -20.0, -22.0, -28.0, -36.0), 900, 2500, 0.1);
  }

  private static Reading textured(
      List<Layer> layers,
      double verseSubDb,
      double chorusSubDb,
      List<Gesture> gestures,
      List<Ducking> ducking) {
    List<BarTexture> bars = new ArrayList<>(Collections.nCopies(8, bar(verseSubDb)));
    bars.addAll(Collections.nCopies(8, bar(chorusSubDb)));
    return song().with(Facet.TEXTURE, Derived.of(new Texture(layers, bars, gestures, ducking)));
  }

  @Test
  void tellsAFloorThatDropsIn() {
    List<Layer> entering = List.of(layer(LayerKind.SUB_BASS, 16, 32));
    assertThat(told(textured(entering, -45, -25, List.of(), List.of())))
        .containsExactly("sub-bass-entry 9-16");
    assertThat(told(textured(entering, -30, -23, List.of(), List.of()))) // a kick before it
        .containsExactly("sub-bass-entry 9-16");
    assertThat(told(textured(List.of(), -45, -25, List.of(), List.of()))) // only kicks
        .isEmpty();
    List<Layer> all = List.of(layer(LayerKind.SUB_BASS, 0, 32));
    assertThat(told(textured(all, -45, -25, List.of(), List.of()))).isEmpty();
    List<Layer> soonGone = List.of(layer(LayerKind.SUB_BASS, 16, 20));
    assertThat(told(textured(soonGone, -45, -25, List.of(), List.of()))).isEmpty();
  }

  private static Layer layer(LayerKind kind, double start, double end) {
    return new Layer(
        kind,
        new Span(start, end),
        kind == LayerKind.PLUCKED ? OptionalDouble.of(0.2) : OptionalDouble.empty(),
        0.9);
  }

  private static Reading layered(Layer... layers) {
    return textured(List.of(layers), -30, -30, List.of(), List.of());
  }

  @Test
  void tellsDrumsThatLeaveAndReturnWhileTheRestGoesOn() {
    assertThat(
            told(
                layered(
                    layer(LayerKind.LEAD, 0, 32),
                    layer(LayerKind.KICK, 0, 16),
                    layer(LayerKind.SNARE, 0.5, 15),
                    layer(LayerKind.KICK, 20, 32))))
        .containsExactly("drum-dropout 9-10");
    // The cymbal stays: no gap.
    assertThat(
            told(
                layered(
                    layer(LayerKind.LEAD, 0, 32),
                    layer(LayerKind.CYMBAL, 0, 32),
                    layer(LayerKind.KICK, 0, 16),
                    layer(LayerKind.KICK, 20, 32))))
        .isEmpty();
    // Nothing goes on: a stop, not a dropout.
    assertThat(told(layered(layer(LayerKind.KICK, 0, 16), layer(LayerKind.KICK, 20, 32))))
        .isEmpty();
  }

  @Test
  void tellsPluckedNotesThatJoinButNotThoseThatWereThere() {
    assertThat(told(layered(layer(LayerKind.PLUCKED, 16, 32))))
        .containsExactly("plucked-layer 9-16");
    assertThat(told(layered(layer(LayerKind.PLUCKED, 0, 32)))).isEmpty();
  }

  private static Reading moving(Gesture gesture) {
    return textured(List.of(), -30, -30, List.of(gesture), List.of());
  }

  @Test
  void tellsFiltersRisersAndSwells() {
    Span span = new Span(8, 16);
    assertThat(told(moving(new Gesture(Gesture.Kind.OPENING, span, 2.5, 3, 0.95, 0.9))))
        .containsExactly("filter-sweep 5-8");
    assertThat(told(moving(new Gesture(Gesture.Kind.CLOSING, span, -2.5, -3, -0.95, 0.9))))
        .containsExactly("filter-sweep 5-8");
    assertThat(told(moving(new Gesture(Gesture.Kind.RISER, span, 0, 14, 0.95, 0.9))))
        .containsExactly("riser 5-8");
    assertThat(told(moving(new Gesture(Gesture.Kind.SWELL, new Span(14, 16), 0, 18, 0.95, 0.9))))
        .containsExactly("swell 8-8");
    assertThat(told(moving(new Gesture(Gesture.Kind.OPENING, span, 0.5, 3, 0.95, 0.9)))).isEmpty();
    assertThat(told(moving(new Gesture(Gesture.Kind.RISER, span, 0, 3, 0.95, 0.9)))).isEmpty();
  }

  @Test
  void tellsDuckingOverASectionOnly() {
    assertThat(
            told(
                textured(
                    List.of(),
                    -30,
                    -30,
                    List.of(),
                    List.of(new Ducking(new Span(16, 32), 5, 0.03, 0.12, 0.9)))))
        .containsExactly("ducking 9-16");
    assertThat(
            told(
                textured(
                    List.of(),
                    -30,
                    -30,
                    List.of(),
                    List.of(new Ducking(new Span(16, 20), 5, 0.03, 0.12, 0.9)))))
        .isEmpty();
  }

  private static Reading echoing(
      Echo.Kind kind, Span span, double lag, double wander, double place) {
    Echo echo =
        new Echo(
            kind,
            span,
            lag,
            wander,
            0,
            Optional.of(new NoteValue(1, 8)),
            -place,
            List.of(new Echo.Repeat(-8, place, -2), new Echo.Repeat(-14, place, -4)),
            0.9);
    return song().with(Facet.ECHOES, Derived.of(new Echoes(List.of(echo), List.of())));
  }

  @Test
  void tellsDelaysThrowsDoublesAndLinesSungAgain() {
    assertThat(told(echoing(Echo.Kind.DELAY, new Span(16, 32), 0.375, 0.001, 0)))
        .containsExactly("echo 9-16");
    assertThat(told(echoing(Echo.Kind.DELAY, new Span(14, 16), 0.375, 0.001, 0)))
        .containsExactly("delay-throw 8-8");
    assertThat(told(echoing(Echo.Kind.DOUBLE, new Span(16, 32), 0.015, 0.006, 0.7)))
        .containsExactly("wide-double 9-16");
    assertThat(told(echoing(Echo.Kind.DOUBLE, new Span(16, 32), 0.015, 0.006, 0.1))).isEmpty();
    assertThat(told(echoing(Echo.Kind.RESUNG, new Span(16, 32), 2, 0.03, 0.5)))
        .containsExactly("resung-echo 9-16");
  }

  @Test
  void everyFindingCanBePutIntoWords() {
    Texts texts = Texts.in(Locale.ENGLISH);
    List<Reading> readings =
        List.of(
            placed(jumps(0.7)),
            wide(-18, -10),
            textured(
                List.of(layer(LayerKind.PLUCKED, 16, 32)),
                -45,
                -25,
                List.of(new Gesture(Gesture.Kind.RISER, new Span(8, 16), 0, 14, 0.95, 0.9)),
                List.of(new Ducking(new Span(16, 32), 5, 0.03, 0.12, 0.9))),
            echoing(Echo.Kind.DELAY, new Span(16, 32), 0.375, 0.001, 0));
    for (Reading reading : readings) {
      var findings = new Techniques(ProductionFinders.all(), Calibration.NONE).in(reading);
      assertThat(findings).isNotEmpty();
      findings.forEach(
          finding -> {
            assertThat(texts.say(finding.summary())).doesNotContain("{");
            finding.evidence().forEach(e -> assertThat(texts.say(e)).isNotBlank());
          });
    }
  }
}
