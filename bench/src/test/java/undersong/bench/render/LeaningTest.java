package undersong.bench.render;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import undersong.bench.render.Part.Role;

/**
 * Against what follows from the cookbook's peaking filter, whose gain in the middle of its band is
 * the gain it was asked for (Bristow-Johnson 1994), and from constant-power panning.
 */
class LeaningTest {
  private static final double HERTZ = 1000;
  private static final int SECONDS = 20;

  private static List<Staging.Stand> stands(double placement, double leftDb, double rightDb)
      throws IOException {
    Song song =
        new Song("own-hall-01", 0, 99, "ROCK", 110, 1, 0, 0, 0, Song.Lead.VOWELS, false, Set.of());
    TempoMap tempo = Arrangement.of(song, new Charts().find("own-hall-01")).tempo();
    float[] tone = new float[SECONDS * Wave.RATE_HZ];
    for (int i = 0; i < tone.length; i++) {
      tone[i] = (float) (0.1 * Math.sin(2 * Math.PI * HERTZ * i / Wave.RATE_HZ));
    }
    Part part =
        Part.played(
            Role.LINE, 0, List.of(new PlayedNote(8, 12, 83, 90)), Strip.at(placement, 0, 0));
    return new Leaning(
            tempo,
            List.of(
                new ChannelEqualizer(20, HERTZ, leftDb), new ChannelEqualizer(20, HERTZ, rightDb)))
        .of(List.of(part), List.of(tone));
  }

  @Test
  void leansTowardsTheLouderChannel() throws IOException {
    double ratio = Math.pow(10, -6 / 20.0);
    assertThat(stands(0, 4, -2).get(0).placement())
        .isCloseTo(4 / Math.PI * Math.atan(ratio) - 1, within(0.005));
    assertThat(stands(0, -2, 4).get(0).placement())
        .isCloseTo(1 - 4 / Math.PI * Math.atan(ratio), within(0.005));
  }

  @Test
  void staysWhereItIsPlacedWhereBothChannelsAreBentAlike() throws IOException {
    assertThat(stands(0.6, 3, 3).get(0).placement()).isCloseTo(0.6, within(0.005));
    assertThat(stands(-1, 3, -3).get(0).placement()).isCloseTo(-1, within(1e-9));
  }
}
