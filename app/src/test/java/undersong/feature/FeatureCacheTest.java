package undersong.feature;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.time.FrameClock;

final class FeatureCacheTest {
  private static final long ROOMY = 1L << 30;

  @TempDir Path folder;

  private static FrameMatrix matrix(Random random, int framesPerSecond, int bins, int seconds) {
    float[] values = new float[framesPerSecond * seconds * bins];
    for (int i = 0; i < values.length; i++) {
      float before = i < bins ? 2 : values[i - bins];
      values[i] = (float) Math.abs(before + 0.3 * random.nextGaussian());
    }
    return FrameMatrix.of(new FrameClock(44_100, 44_100 / framesPerSecond), bins, values);
  }

  private static FrameSeries series(Random random, int framesPerSecond, int seconds) {
    float[] values = new float[framesPerSecond * seconds];
    for (int i = 0; i < values.length; i++) {
      values[i] = (float) random.nextGaussian();
    }
    return new FrameSeries(new FrameClock(44_100, 44_100 / framesPerSecond), values);
  }

  private static Features features(String hash, long seed, int seconds) {
    Random random = new Random(seed);
    return new Features(
        hash,
        seconds,
        series(random, 50, seconds),
        matrix(random, 50, 3, seconds),
        matrix(random, 2, 96, seconds),
        matrix(random, 25, 264, seconds),
        matrix(random, 25, 264, seconds),
        new Loudness(series(random, 10, seconds), series(random, 10, seconds), -14.5, 6.25),
        matrix(random, 10, 7, seconds),
        matrix(random, 10, 7, seconds),
        series(random, 10, seconds),
        series(random, 10, seconds),
        series(random, 10, seconds),
        new StereoImage(
            matrix(random, 25, 98, seconds),
            matrix(random, 25, 98, seconds),
            matrix(random, 25, 98, seconds),
            matrix(random, 172, 16, seconds),
            matrix(random, 5512, 1, seconds)),
        Optional.empty());
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3})
  void givesBackExactlyWhatWasKept(long seed) {
    FeatureCache cache = new FeatureCache(folder, ROOMY);
    Features plain = features("abc", seed, 5);
    Random random = new Random(seed);
    Features heard =
        features("def", seed, 5)
            .withHeard(
                new EarActivations(
                    "ear-7",
                    Map.of("beat", matrix(random, 50, 2, 5), "key", matrix(random, 50, 96, 5))));

    cache.store(plain, "1");
    cache.store(heard, "1");

    assertThat(cache.find("abc", "1")).contains(plain);
    assertThat(cache.find("def", "1")).contains(heard);
    assertThat(cache.find("abcdef", "1")).isEmpty();
  }

  @Test
  void extremeStepsSurvive() {
    short[] steps = {Short.MIN_VALUE, Short.MAX_VALUE, Short.MAX_VALUE, Short.MIN_VALUE, 0, -1};
    Features odd =
        features("abc", 1, 1)
            .withHeard(
                new EarActivations(
                    "x", Map.of("h", FrameMatrix.ofSteps(new FrameClock(50, 1), 2, 0.5f, steps))));
    FeatureCache cache = new FeatureCache(folder, ROOMY);

    cache.store(odd, "1");

    assertThat(cache.find("abc", "1")).contains(odd);
  }

  @Test
  void otherVersionsAreAbsentAndReplaced() {
    FeatureCache cache = new FeatureCache(folder, ROOMY);
    cache.store(features("abc", 1, 2), "1");

    assertThat(cache.find("abc", "2")).isEmpty();
    cache.store(features("abc", 2, 2), "2");
    assertThat(cache.find("abc", "2")).contains(features("abc", 2, 2));
    assertThat(cache.find("abc", "1")).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
  void damagedFilesAreAbsent(long seed) throws IOException {
    FeatureCache cache = new FeatureCache(folder, ROOMY);
    cache.store(features("abc", 1, 2), "1");
    Path file = folder.resolve("abc.features");
    byte[] bytes = Files.readAllBytes(file);
    Random random = new Random(seed);
    if (seed % 2 == 0) {
      bytes[random.nextInt(bytes.length)] ^= (byte) (1 + random.nextInt(255));
      Files.write(file, bytes);
    } else {
      Files.write(file, java.util.Arrays.copyOf(bytes, random.nextInt(bytes.length)));
    }

    assertThat(cache.find("abc", "1")).isEmpty();
    cache.store(features("abc", 1, 2), "1");
    assertThat(cache.find("abc", "1")).isPresent();
  }

  @Test
  void fourMinutesStaySmall() throws IOException {
    FeatureCache cache = new FeatureCache(folder, ROOMY);
    cache.store(features("abc", 5, 240), "1");

    assertThat(Files.size(folder.resolve("abc.features"))).isLessThan(20_000_000);
  }

  @Test
  void whatWasNotAskedForLongestGoesFirst() throws IOException {
    Instant start = Instant.parse("2026-01-01T00:00:00Z");
    new FeatureCache(folder, ROOMY).store(features("probe", 1, 2), "1");
    long size = Files.size(folder.resolve("probe.features"));
    Files.delete(folder.resolve("probe.features"));
    long limit = 2 * size + size / 2;

    at(start, limit).store(features("one", 1, 2), "1");
    at(start.plusSeconds(10), limit).store(features("two", 1, 2), "1");
    assertThat(at(start.plusSeconds(20), limit).find("one", "1")).isPresent();
    at(start.plusSeconds(30), limit).store(features("three", 1, 2), "1");

    try (Stream<Path> left = Files.list(folder)) {
      assertThat(left.map(f -> f.getFileName().toString()))
          .containsExactlyInAnyOrder("one.features", "three.features");
    }
  }

  private FeatureCache at(Instant now, long limit) {
    return new FeatureCache(folder, limit, Clock.fixed(now, ZoneOffset.UTC));
  }

  @Test
  void aFolderThatCannotBeWrittenStopsNobody() throws IOException {
    Path blocked = Files.writeString(folder.resolve("file"), "in the way");
    FeatureCache cache = new FeatureCache(blocked, ROOMY);

    cache.store(features("abc", 1, 1), "1");

    assertThat(cache.find("abc", "1")).isEmpty();
    assertThat(blocked).hasContent("in the way");
  }

  @Test
  void pathsAreNoHashes() {
    FeatureCache cache = new FeatureCache(folder, ROOMY);

    assertThatThrownBy(() -> cache.find("../../etc/passwd", "1"))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
