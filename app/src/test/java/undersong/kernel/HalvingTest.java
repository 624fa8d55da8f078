package undersong.kernel;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

final class HalvingTest {

  private static float[] halved(float[] in, Random sizes) {
    Halving halving = new Halving();
    float[] all = new float[in.length];
    int given = 0;
    int at = 0;
    while (at < in.length) {
      int count = Math.min(in.length - at, 1 + sizes.nextInt(500));
      float[] out = new float[count / 2 + 1];
      int written = halving.push(Arrays.copyOfRange(in, at, at + count), count, out);
      System.arraycopy(out, 0, all, given, written);
      given += written;
      at += count;
    }
    float[] rest = new float[100];
    int written = halving.finish(rest);
    System.arraycopy(rest, 0, all, given, written);
    return Arrays.copyOf(all, given + written);
  }

  private static float[] tone(double hz, int samples) {
    float[] tone = new float[samples];
    for (int n = 0; n < samples; n++) {
      tone[n] = (float) Math.sin(2 * Math.PI * hz * n / 44_100);
    }
    return tone;
  }

  @ParameterizedTest
  @ValueSource(doubles = {40, 1000, 7000, 10_400})
  void keepsShapeAndTime(double hz) {
    float[] out = halved(tone(hz, 8001), new Random(1));

    assertThat(out).hasSize(4001);
    for (int m = 100; m < 3900; m++) {
      double expected = Math.sin(2 * Math.PI * hz * m / 22_050);
      assertThat((double) out[m]).isCloseTo(expected, within(0.0012));
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {11_650, 13_000, 18_000, 22_000})
  void doesNotFoldHighSoundDown(double hz) {
    float[] out = halved(tone(hz, 8000), new Random(1));

    for (int m = 100; m < 3900; m++) {
      assertThat(Math.abs(out[m])).isLessThan(1e-4f);
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3})
  void blockSizesChangeNothing(long seed) {
    Random random = new Random(seed);
    float[] noise = new float[1 + random.nextInt(5000)];
    for (int n = 0; n < noise.length; n++) {
      noise[n] = (float) random.nextGaussian();
    }

    float[] pieces = halved(noise, random);

    assertThat(pieces).hasSize((noise.length + 1) / 2);
    Halving whole = new Halving();
    float[] expected = new float[noise.length];
    int count = whole.push(noise, noise.length, expected);
    float[] rest = new float[100];
    int left = whole.finish(rest);
    System.arraycopy(rest, 0, expected, count, left);
    assertThat(pieces).containsExactly(Arrays.copyOf(expected, count + left));
  }

  @Test
  void silenceStaysSilent() {
    assertThat(halved(new float[999], new Random(1))).hasSize(500).containsOnly(0);
    assertThat(halved(new float[0], new Random(1))).isEmpty();
  }
}
