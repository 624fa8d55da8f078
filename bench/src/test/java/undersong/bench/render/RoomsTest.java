package undersong.bench.render;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.reading.HearingBand;

class RoomsTest {
  /**
   * A comb of delay d and feedback g falls by 60 dB in -3 d / log10(g) (Schroeder 1962). The
   * feedback here passes 0.6 / (1 - 0.4 z^-1), so at a frequency f it is g |H(f)|; the four combs
   * of a channel bound what they do together.
   */
  @ParameterizedTest
  @ValueSource(doubles = {0.4, 0.9, 1.4, 3})
  void aRoomFallsAsItsCombsDo(double decaySeconds) {
    List<Double> measured = Reverb.decaySeconds(decaySeconds);

    assertThat(HearingBand.LOW.of(measured)).isCloseTo(decaySeconds, within(0.08 * decaySeconds));
    assertThat(HearingBand.MIDDLE.of(measured))
        .isBetween(combSeconds(decaySeconds, 0.0311, 2500), 1.03 * decaySeconds);
    assertThat(HearingBand.HIGH_MIDDLE.of(measured))
        .isBetween(
            combSeconds(decaySeconds, 0.0311, 8000), combSeconds(decaySeconds, 0.0461, 2500));
    assertThat(HearingBand.SUB.of(measured)).isZero();
  }

  private static double combSeconds(double decaySeconds, double delay, double hertz) {
    double w = 2 * Math.PI * hertz / Wave.RATE_HZ;
    double response = 0.6 / Math.sqrt(1 + 0.16 - 0.8 * Math.cos(w));
    double feedback = Math.pow(10, -3 * delay / decaySeconds) * response;
    return -3 * delay / Math.log10(feedback);
  }

  /** Half of what sounds, sent dry, then wet by 12 dB. */
  @Test
  void theMixIsWetterWhereMoreIsSent() {
    int length = 8 * Wave.RATE_HZ;
    float[] noise = new float[length];
    java.util.Random random = new java.util.Random(1);
    for (int i = 0; i < length; i++) {
      noise[i] = (float) (0.1 * random.nextGaussian());
    }
    Part part = Part.played(Part.Role.LEAD, 0, List.of(), Strip.at(0, 0, 0.2));
    List<RoomSend> sends = List.of(new RoomSend(0, 4, 0.5, -6), new RoomSend(4, 8, 0.5, 6));

    MixLevels levels =
        Mixer.clean(List.of(part), List.of(noise), new Ducker(List.of(), 0, 1), sends).levels();

    double before = levels.wetToDryDb(1, 4);
    double after = levels.wetToDryDb(5, 8);
    assertThat(after - before).isCloseTo(12, within(0.3));
  }

  @Test
  void songsRenderedBeforeRoomsWereWrittenDownCanStillBeRead() throws IOException {
    String old =
        "{\"placements\":[],\"echoes\":[],\"takes\":[],\"layers\":[],\"sweeps\":[],"
            + "\"duckings\":[],\"sideOverMidDb\":[],\"lines\":[],\"additions\":[]}";

    assertThat(new ObjectMapper().readValue(old, Staging.class)).isEqualTo(Staging.NONE);
  }

  @Test
  void sectionsOfOneLetterAreEquallyWet() throws IOException {
    for (Song song : SongList.of("room-tune")) {
      Arrangement arrangement = Arrangement.of(song, new Charts().find(song.chartId()));
      List<Passage> passages = Passage.of(arrangement.chart());
      List<RoomSend> sends = arrangement.production().rooms();

      assertThat(sends).hasSameSizeAs(passages);
      for (int i = 0; i < passages.size(); i++) {
        assertThat(sends.get(i).decaySeconds()).isBetween(0.3, 3.0);
        for (int j = 0; j < i; j++) {
          if (passages.get(i).letter().equals(passages.get(j).letter())) {
            assertThat(sends.get(i).sendDb())
                .as("%s %s", song.chartId(), passages.get(i).letter())
                .isEqualTo(sends.get(j).sendDb());
          }
        }
      }
    }
  }
}
