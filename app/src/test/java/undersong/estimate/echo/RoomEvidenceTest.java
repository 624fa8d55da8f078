package undersong.estimate.echo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.estimate.echo.RoomEvidence.Measured;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.time.Span;

class RoomEvidenceTest {
  private static final Span WHOLE = new Span(0, 40);

  private static Measured measured(StereoPowers powers) {
    return new RoomEvidence(powers).of(List.of(WHOLE), RoomDecay.Settings.STANDARD).get(0);
  }

  /** The decay that fits best is the one that was drawn, to the nearest that is tried. */
  @ParameterizedTest
  @ValueSource(doubles = {0.4, 0.8, 1.6})
  void whatLagsBehindTellsHowLongTheRoomFalls(double decaySeconds) {
    StereoPowers powers = new DrawnRoom(40, decaySeconds, 0.3, 0).powers();

    assertThat(new RoomEvidence(powers).bestOctaves(WHOLE))
        .hasSize(RoomEvidence.BANDS.size())
        .allSatisfy(
            octaves ->
                assertThat(octaves).isCloseTo(Math.log(decaySeconds) / Math.log(2), within(0.34)));
  }

  @Test
  void aWetterRoomLagsMore() {
    Measured dry = measured(new DrawnRoom(40, 0.8, 0.05, 0).powers());
    Measured wet = measured(new DrawnRoom(40, 0.8, 0.2, 0).powers());

    assertThat(wet.lagDb() - dry.lagDb()).isCloseTo(6, within(1.5));
    assertThat(wet.ambientDb()).isGreaterThan(dry.ambientDb() + 3);
  }

  @Test
  void whatIsPlayedTwiceStandsNowhereButDoesNotLag() {
    Measured room = measured(new DrawnRoom(40, 0.8, 0.2, 0).powers());
    Measured twice = measured(new DrawnRoom(40, 0.8, 0, 0.2).powers());

    assertThat(twice.ambientDb()).isGreaterThan(room.ambientDb() - 3);
    assertThat(twice.lagDb()).isLessThan(room.lagDb() - 8);
  }

  @Test
  void oneChannelWrittenTwiceHasNoRoom() {
    StereoPowers powers = AmbienceTest.powers(0, 0);

    assertThat(measured(powers).isNothing()).isTrue();
  }

  @Test
  void silenceHasNone() {
    assertThat(measured(StereoPowers.of(StereoImage.NOTHING)).isNothing()).isTrue();
  }
}
