package undersong.study;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.feature.FeatureCache;
import undersong.feature.FeatureExtractor;
import undersong.feature.Features;
import undersong.feature.ear.ListeningModel;

/** When the trained ear is loaded, which takes longer than most of what a command does. */
class RecordedFeaturesTest {
  private static final String WITH_EAR =
      FeatureExtractor.VERSION + "-" + ListeningModel.shippedVersion();

  @TempDir Path folder;

  @Test
  void whatTheEarMadeIsKnownWithoutLoadingIt() {
    AtomicInteger loads = new AtomicInteger();
    FeatureCache cache = new FeatureCache(folder, 1 << 30);
    Features features = StandInFeatures.silence("abc", 2);
    cache.store(features, WITH_EAR);
    try (RecordedFeatures source = source(cache, loads)) {
      assertThat(source.made(WITH_EAR)).isTrue();
      assertThat(source.cached("abc")).isPresent();
      assertThat(loads.get()).isZero();
    }
  }

  @Test
  void whereTheEarCannotBeLoadedWhatWasMadeWithoutItCounts() {
    AtomicInteger loads = new AtomicInteger();
    FeatureCache cache = new FeatureCache(folder, 1 << 30);
    cache.store(StandInFeatures.silence("abc", 2), FeatureExtractor.VERSION);
    try (RecordedFeatures source = source(cache, loads)) {
      assertThat(source.cached("abc")).isPresent();
      assertThat(source.made(FeatureExtractor.VERSION)).isTrue();
      assertThat(source.made("another")).isFalse();
      assertThat(source.made(WITH_EAR)).as("once it is known not to load").isFalse();
      assertThat(loads.get()).isEqualTo(1);
    }
  }

  /** The shipped description and the loaded network must name one version. */
  @Test
  void theShippedVersionIsTheLoadedOne() {
    Optional<ListeningModel> model = ListeningModel.load(1);
    model.ifPresent(
        loaded -> {
          assertThat(ListeningModel.shippedVersion()).isEqualTo(loaded.version());
          loaded.close();
        });
    assertThat(ListeningModel.shippedVersion()).isNotEmpty();
  }

  private static RecordedFeatures source(FeatureCache cache, AtomicInteger loads) {
    return new RecordedFeatures(
        Optional.of(cache),
        () -> {
          loads.incrementAndGet();
          return Optional.empty();
        });
  }
}
