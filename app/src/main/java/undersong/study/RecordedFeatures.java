package undersong.study;

import java.nio.file.Path;
import java.util.Optional;
import undersong.audio.AudioReader;
import undersong.audio.Recording;
import undersong.feature.FeatureExtractor;
import undersong.feature.Features;
import undersong.feature.ear.Hearing;
import undersong.feature.ear.ListeningModel;
import undersong.work.Cancellation;
import undersong.work.Progress;

/** Features measured on files, and heard by the trained ear where it can be loaded. */
final class RecordedFeatures implements FeatureSource {
  private final Optional<ListeningModel> ear;

  RecordedFeatures(Optional<ListeningModel> ear) {
    this.ear = ear;
  }

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
    FeatureExtractor extractor = new FeatureExtractor();
    if (ear.isEmpty()) {
      return extractor.extract(recording, progress, cancellation);
    }
    Hearing hearing = new Hearing(ear.get());
    Features measured = extractor.extract(recording, hearing, progress, cancellation);
    return measured.withHeard(hearing.finish());
  }

  @Override
  public String version() {
    return FeatureExtractor.VERSION + ear.map(model -> "-" + model.version()).orElse("");
  }
}
