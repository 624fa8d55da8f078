package undersong.study;

import java.nio.file.Path;
import java.util.Optional;
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
 * Features measured on files, heard by the trained ear where it can be loaded, and kept in a folder
 * so that a recording is measured once. The ear is loaded when it is first needed.
 */
final class RecordedFeatures implements FeatureSource {
  private static final long LIMIT_BYTES = 4L << 30;

  private final FeatureCache cache;
  private Optional<Optional<ListeningModel>> loaded = Optional.empty();

  /**
   * @param folder of the cache; what lies there can be measured again and may be deleted
   */
  RecordedFeatures(Path folder) {
    this.cache = new FeatureCache(folder, LIMIT_BYTES);
  }

  @Override
  public Recording probe(Path file, Cancellation cancellation) {
    return AudioReader.probe(file, cancellation);
  }

  @Override
  public Optional<Features> cached(String contentHash) {
    return cache.find(contentHash, version());
  }

  @Override
  public Features features(Recording recording, Progress progress, Cancellation cancellation) {
    return cached(recording.contentHash())
        .orElseGet(
            () -> {
              Features features = measured(recording, progress, cancellation);
              cache.store(features, version());
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

  private synchronized Optional<ListeningModel> ear() {
    if (loaded.isEmpty()) {
      loaded = Optional.of(ListeningModel.load());
    }
    return loaded.get();
  }

  @Override
  public synchronized void close() {
    loaded.flatMap(ear -> ear).ifPresent(ListeningModel::close);
    loaded = Optional.empty();
  }
}
