package undersong.study;

import java.nio.file.Path;
import java.util.Optional;
import undersong.audio.AudioReader;
import undersong.audio.Recording;
import undersong.feature.FeatureExtractor;
import undersong.feature.Features;
import undersong.work.Cancellation;
import undersong.work.Progress;

/** Features measured on files. */
final class RecordedFeatures implements FeatureSource {
  @Override
  public Recording probe(Path file, Cancellation cancellation) {
    return AudioReader.probe(file, cancellation);
  }

  @Override
  public Optional<Features> cached(String contentHash) {
    return Optional.empty();
  }

  @Override
  public Features features(Recording recording, Progress progress, Cancellation cancellation) {
    return new FeatureExtractor().extract(recording, progress, cancellation);
  }

  @Override
  public String version() {
    return FeatureExtractor.VERSION;
  }
}
