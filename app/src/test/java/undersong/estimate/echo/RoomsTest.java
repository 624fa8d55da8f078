package undersong.estimate.echo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import undersong.estimate.echo.RoomEvidence.Measured;
import undersong.reading.Correction;
import undersong.reading.HearingBand;
import undersong.reading.Reverb;
import undersong.time.Span;

/** Rooms told by measures made by hand. */
class RoomsTest {
  private static final Span FIRST = new Span(0, 20);
  private static final Span SECOND = new Span(20, 40);
  private static final RoomTeller.Settings AS_MEASURED =
      new RoomTeller.Settings(
          List.of(0.0, 0.0, 0.0, 0.0), 1, 1, List.of(0.0, 0.5, 0.5), 3, -20, 0.5);
  private static final RoomChanges.Settings CHANGES = new RoomChanges.Settings(3, 4);

  private static Measured measured(double octaves, double spread, double ambient, double lag) {
    return new Measured(
        Collections.nCopies(4, octaves), Collections.nCopies(4, spread), ambient, 1, lag);
  }

  private static List<Reverb> told(Measured first, Measured second) {
    List<Reverb> rooms =
        new RoomTeller(AS_MEASURED).told(List.of(FIRST, SECOND), List.of(first, second));
    return RoomChanges.told(rooms, Map.of(FIRST, first, SECOND, second), CHANGES);
  }

  @Test
  void whatIsMeasuredIsToldBandByBand() {
    List<Reverb> rooms = told(measured(1, 0.1, -12, -12), measured(0, 0.1, -8, -4));

    assertThat(rooms).hasSize(2);
    for (HearingBand band : HearingBand.values()) {
      boolean asked = RoomEvidence.BANDS.contains(band);
      assertThat(band.of(rooms.get(0).decaySeconds())).isCloseTo(asked ? 2 : 0, within(0.01));
      assertThat(band.of(rooms.get(1).decaySeconds())).isCloseTo(asked ? 1 : 0, within(0.01));
    }
    assertThat(rooms.get(0).wetToDryDb()).isCloseTo(-12, within(0.01));
    assertThat(rooms.get(0).changeDb()).isZero();
    assertThat(rooms.get(1).changeDb()).isCloseTo(6, within(0.01));
    assertThat(rooms).allSatisfy(room -> assertThat(room.probability()).isBetween(0.5, 0.999));
  }

  @Test
  void aDecayThatMayWellBeWrongIsNotTold() {
    assertThat(told(measured(0, 0.8, -12, -12), measured(0, 0.8, -12, -12)))
        .allSatisfy(room -> assertThat(room.meanDecaySeconds()).isZero());
  }

  @Test
  void aDrySectionHasNoDecay() {
    assertThat(told(measured(0, 0.1, -25, -25), measured(0, 0.1, -25, -25)))
        .hasSize(2)
        .allSatisfy(room -> assertThat(room.meanDecaySeconds()).isZero());
  }

  @Test
  void ofWhatWasNotMeasuredNothingIsTold() {
    assertThat(told(Measured.NOTHING, measured(0, 0.1, -12, -12)))
        .extracting(Reverb::span)
        .containsExactly(SECOND);
  }

  @Test
  void aSectionThatIsOnlyWiderIsNotWetter() {
    assertThat(change(measured(0, 0.1, -20, -12), measured(0, 0.1, -10, -11))).isZero();
    assertThat(change(measured(0, 0.1, -20, -20), measured(0, 0.1, -19, -10))).isZero();
    assertThat(change(measured(0, 0.1, -20, -20), measured(0, 0.1, -24, -10))).isZero();
    assertThat(change(measured(0, 0.1, -10, -10), measured(0, 0.1, -16, -16)))
        .isCloseTo(-6, within(0.01));
  }

  private static double change(Measured first, Measured second) {
    return told(first, second).get(1).changeDb();
  }

  @Test
  void whatAListenerSaidIsComparedWithNothingElse() {
    List<Reverb> said = List.of(said(FIRST, -20), said(SECOND, -10));
    List<Reverb> half =
        List.of(
            said(FIRST, -20),
            new RoomTeller(AS_MEASURED)
                .told(List.of(SECOND), List.of(measured(0, 0.1, -10, -10)))
                .get(0));
    Map<Span, Measured> measured =
        Map.of(FIRST, measured(0, 0.1, -20, -20), SECOND, measured(0, 0.1, -10, -10));

    assertThat(RoomChanges.told(said, measured, CHANGES).get(1).changeDb()).isEqualTo(10);
    assertThat(RoomChanges.told(half, measured, CHANGES).get(1).changeDb()).isZero();
  }

  private static Reverb said(Span span, double wet) {
    return new Reverb(span, Collections.nCopies(6, 0.0), wet, 0, 0, 1);
  }

  @Test
  void roomsApartDoNotFollowEachOther() {
    List<Reverb> apart = List.of(said(FIRST, -20), said(new Span(30, 40), -10));

    assertThat(RoomChanges.told(apart, Map.of(), CHANGES).get(1).changeDb()).isZero();
  }

  private static final RoomDecay.Settings ALL_ALIKE =
      new RoomDecay.Settings(
          List.of(0.0, 0.0, 0.0, 0.0), List.of(1.0, 1.0, 1.0, 1.0), 0.1, 4, 0.1, 0.3);

  /** Misfits that grow with the distance from the decay that is tried there. */
  private static LaggingSound.Fit fit(int best, double perStep) {
    int tried = LaggingSound.DECAY_OCTAVES.length;
    return new LaggingSound.Fit(
        IntStream.range(0, tried).mapToObj(d -> perStep * Math.abs(d - best)).toList(),
        Collections.nCopies(tried, 0.0));
  }

  @Test
  void oneMisledBandDoesNotOutweighThree() {
    List<LaggingSound.Fit> misled = List.of(fit(12, 5000), fit(6, 30), fit(6, 30), fit(6, 30));

    RoomDecay.Expected expected = new RoomDecay(ALL_ALIKE).of(misled, List.of(misled));

    assertThat(expected.octaves()).isCloseTo(LaggingSound.DECAY_OCTAVES[6], within(0.15));
  }

  @Test
  void aSectionThatSaysNothingTakesTheDecayOfTheSong() {
    List<LaggingSound.Fit> clear = Collections.nCopies(4, fit(9, 500));
    List<LaggingSound.Fit> silent = Collections.nCopies(4, LaggingSound.Fit.NOTHING);

    RoomDecay.Expected expected = new RoomDecay(ALL_ALIKE).of(silent, List.of(clear, silent));

    assertThat(expected.octaves()).isCloseTo(LaggingSound.DECAY_OCTAVES[9], within(0.15));
  }

  @Test
  void whatIsSaidReplacesTheRoomInTheMiddle() {
    List<Reverb> rooms = new ArrayList<>(List.of(said(FIRST, -20)));
    List<Span> sections = List.of(FIRST, SECOND);

    boolean placed =
        SaidRooms.lay(rooms, new Correction.RoomOver(new Span(4, 6), 1.4, -9), sections, 40)
            && SaidRooms.lay(
                rooms, new Correction.RoomOver(new Span(30, 31), 0, -60), sections, 40);

    assertThat(placed).isTrue();
    assertThat(rooms).extracting(Reverb::span).containsExactly(FIRST, SECOND);
    assertThat(rooms.get(0).meanDecaySeconds()).isCloseTo(1.4, within(1e-9));
    assertThat(rooms).allSatisfy(room -> assertThat(room.probability()).isEqualTo(1));
    assertThat(SaidRooms.lay(rooms, new Correction.RoomOver(new Span(50, 52), 1, -9), sections, 40))
        .isFalse();
  }
}
