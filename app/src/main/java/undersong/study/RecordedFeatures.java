package undersong.study;

import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Supplier;
import undersong.audio.AudioReader;
import undersong.audio.Recording;
import undersong.feature.FeatureCache;
import undersong.feature.FeatureExtractor;
import undersong.feature.Features;
import undersong.feature.ear.Hearing;
import undersong.feature.ear.ListeningModel;
import undersong.work.Cancellation;
import undersong.work.Progress;

/**
 * Features measured on files, heard by the trained ear where it can be loaded, and mostly kept in a
 * folder so that a recording is measured once. The ear is loaded when it is first needed.
 */
final class RecordedFeatures implements FeatureSource {
  private static final long LIMIT_BYTES = 4L << 30;

  private final Optional<FeatureCache> cache;
  private final Supplier<Optional<ListeningModel>> load;
  private Optional<Optional<ListeningModel>> loaded = Optional.empty();

  /**
   * @param folder of the cache; what lies there can be measured again and may be deleted
   */
  RecordedFeatures(Path folder) {
    this(Optional.of(new FeatureCache(folder, LIMIT_BYTES)), ListeningModel::load);
  }

  RecordedFeatures(Optional<FeatureCache> cache, Supplier<Optional<ListeningModel>> load) {
    this.cache = cache;
    this.load = load;
  }

  /**
   * Features that nobody keeps.
   *
   * @param threads the ear uses for one recording
   */
  static RecordedFeatures unkept(int threads) {
    return new RecordedFeatures(Optional.empty(), () -> ListeningModel.load(threads));
  }

  @Override
  public Recording probe(Path file, Cancellation cancellation) {
    return AudioReader.probe(file, cancellation);
  }

  @Override
  public Optional<Features> cached(String contentHash) {
    return cache.flatMap(
        kept ->
            kept.find(contentHash, likelyVersion())
                .or(() -> likely() ? kept.find(contentHash, version()) : Optional.empty()));
  }

  @Override
  public Features features(Recording recording, Progress progress, Cancellation cancellation) {
    return cached(recording.contentHash())
        .orElseGet(
            () -> {
              Features features = measured(recording, progress, cancellation);
              cache.ifPresent(kept -> kept.store(features, version()));
              return features;
            });
  }

  private Features measured(Recording recording, Progress progress, Cancellation cancellation) {
    FeatureExtractor extractor = new FeatureExtractor();
    if (ear().isEmpty()) {
      return extractor.extract(recording, progress, cancellation);
    }
    Hearing hearing = new Hearing(ear().get());
    Features measured = extractor.extract(recording, hearing, progress, cancellation);
    return measured.withHeard(hearing.finish());
  }

  @Override
  public String version() {
    return FeatureExtractor.VERSION + ear().map(model -> "-" + model.version()).orElse("");
  }

  @Override
  public boolean made(String version) {
    return version.equals(likelyVersion()) || version.equals(version());
  }

  /**
   * The version there will be unless the ear cannot be loaded here. Most questions are about work
   * of this version, and then the ear need not be loaded to answer.
   */
  private String likelyVersion() {
    return likely() ? FeatureExtractor.VERSION + "-" + ListeningModel.shippedVersion() : version();
  }

  private synchronized boolean likely() {
    return loaded.isEmpty();
  }

  private synchronized Optional<ListeningModel> ear() {
    if (loaded.isEmpty()) {
      loaded = Optional.of(load.get());
    }
    return loaded.get();
  }

  @Override
  public synchronized void close() {
    loaded.flatMap(ear -> ear).ifPresent(ListeningModel::close);
    loaded = Optional.empty();
  }
}
