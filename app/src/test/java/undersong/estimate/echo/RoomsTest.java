package undersong.estimate.echo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import undersong.estimate.echo.RoomEvidence.Expected;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.feature.MadeUpHearing;
import undersong.reading.Correction;
import undersong.reading.HearingBand;
import undersong.reading.Reverb;
import undersong.time.Span;

/** Rooms from an ear made by hand: classes as {@code training/FEATURES.md} lays them out. */
class RoomsTest {
  private static final Span FIRST = new Span(0, 20);
  private static final Span SECOND = new Span(20, 40);
  private static final RoomEvidence NOTHING_BESIDE =
      (features, sections) -> Collections.nCopies(sections.size(), Expected.NOTHING);
  private static final RoomTeller.Settings AS_MEASURED =
      new RoomTeller.Settings(List.of(0.0, 0.0, 0.0, 0.0), 1, 1, 0, 1, 4, -27, 0.4);

  /** One class of decay in all bands and one of level, quite sure. */
  private static void say(
      MadeUpHearing ear, Span span, int decayClass, int wetClass, double probability) {
    for (int band = 0; band < 4; band++) {
      ear.set(
          EarHead.ROOM,
          13 * band + decayClass,
          span.startSeconds(),
          span.endSeconds(),
          probability);
    }
    ear.set(EarHead.ROOM, 52 + wetClass, span.startSeconds(), span.endSeconds(), probability);
  }

  private static List<Reverb> told(MadeUpHearing ear, HeardRoom.Settings settings) {
    FrameMatrix room = ear.activations().head(EarHead.ROOM);
    List<Span> sections = List.of(FIRST, SECOND);
    List<Expected> expected = new HeardRoom(settings, NOTHING_BESIDE).heard(room, sections);
    return RoomChanges.told(
        new RoomTeller(AS_MEASURED).told(sections, expected), new RoomChanges.Settings(4, 1, 0));
  }

  /** Class 6 is 0.15 * sqrt(30) = 0.82 s; class 7 of the level is -12 dB. */
  @Test
  void aSureWordIsToldAsItIs() {
    MadeUpHearing ear = new MadeUpHearing(40);
    say(ear, FIRST, 6, 7, 1);
    say(ear, SECOND, 6, 9, 1);

    List<Reverb> rooms = told(ear, new HeardRoom.Settings(1, 0, 0));

    assertThat(rooms).hasSize(2);
    for (HearingBand band : HearingBand.values()) {
      double decay = band.of(rooms.get(0).decaySeconds());
      boolean asked = RoomEvidence.BANDS.contains(band);
      assertThat(decay).isCloseTo(asked ? 0.15 * Math.sqrt(30) : 0, within(0.01));
    }
    assertThat(rooms.get(0).wetToDryDb()).isCloseTo(-12, within(0.1));
    assertThat(rooms.get(0).changeDb()).isZero();
    assertThat(rooms.get(1).changeDb()).isCloseTo(6, within(0.1));
  }

  @Test
  void aStationaryRoomDoesNotChange() {
    MadeUpHearing ear = new MadeUpHearing(40);
    say(ear, new Span(0, 40), 4, 6, 1);

    assertThat(told(ear, new HeardRoom.Settings(1, 0, 0)))
        .hasSize(2)
        .allSatisfy(room -> assertThat(room.changeDb()).isZero());
  }

  @Test
  void moreIsSaidBySureMoments() {
    MadeUpHearing ear = new MadeUpHearing(40);
    say(ear, new Span(0, 10), 8, 7, 1);
    for (int c = 0; c < 13; c++) {
      say(ear, new Span(10, 40), c, Math.min(c, 11), 1.0 / 13);
    }

    double alike = told(ear, new HeardRoom.Settings(0, 0, 0)).get(0).meanDecaySeconds();
    double bySureness = told(ear, new HeardRoom.Settings(2, 0, 0)).get(0).meanDecaySeconds();

    double said = 0.15 * Math.pow(30, 8 / 12.0);
    assertThat(bySureness).isCloseTo(said, within(0.01));
    assertThat(alike).isZero(); // spread too far to be told
  }

  @Test
  void anEarThatIsNotSureTellsNoDecay() {
    MadeUpHearing ear = new MadeUpHearing(40);
    for (int c = 0; c < 12; c++) {
      say(ear, new Span(0, 40), c, c, 1.0 / 13);
    }

    assertThat(told(ear, new HeardRoom.Settings(1, 0, 0)))
        .allSatisfy(room -> assertThat(room.meanDecaySeconds()).isZero());
  }

  @Test
  void aDrySectionHasNoDecay() {
    MadeUpHearing ear = new MadeUpHearing(40);
    say(ear, new Span(0, 40), 6, 0, 1);

    assertThat(told(ear, new HeardRoom.Settings(1, 0, 0)))
        .hasSize(2)
        .allSatisfy(room -> assertThat(room.meanDecaySeconds()).isZero());
  }

  @Test
  void silenceSaysNothing() {
    assertThat(told(new MadeUpHearing(40), new HeardRoom.Settings(1, 0.3, 0))).isEmpty();
  }

  @Test
  void changesMustExceedWhatWanders() {
    Reverb steady = room(FIRST, -20, 1);
    Reverb wandering = room(SECOND, -15, 20);

    assertThat(told(List.of(steady, room(SECOND, -15, 1)))).isCloseTo(5, within(1e-9));
    assertThat(told(List.of(steady, wandering))).isZero();
  }

  @Test
  void withoutTheEarOnlyWhatAListenerSaidIsCompared() {
    RoomChanges.Settings ambient = RoomChanges.Settings.AMBIENT;
    List<Reverb> measured = List.of(room(FIRST, -20, 0), room(SECOND, -10, 0));
    List<Reverb> said =
        measured.stream()
            .map(r -> new Reverb(r.span(), r.decaySeconds(), r.wetToDryDb(), 0, 0, 1))
            .toList();

    assertThat(RoomChanges.told(measured, ambient).get(1).changeDb()).isZero();
    assertThat(RoomChanges.told(said, ambient).get(1).changeDb()).isEqualTo(10);
  }

  private static double told(List<Reverb> rooms) {
    return RoomChanges.told(rooms, new RoomChanges.Settings(4, 2, 0)).get(1).changeDb();
  }

  private static Reverb room(Span span, double wet, double wander) {
    return new Reverb(span, Collections.nCopies(6, 0.0), wet, wander, 0, 0.5);
  }

  @Test
  void roomsApartDoNotFollowEachOther() {
    Reverb later = room(new Span(30, 40), -10, 1);

    assertThat(told(List.of(room(FIRST, -20, 1), later))).isZero();
  }

  @Test
  void whatIsSaidReplacesTheRoomInTheMiddle() {
    List<Reverb> rooms = new java.util.ArrayList<>(List.of(room(FIRST, -20, 1)));
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
