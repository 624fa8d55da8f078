package undersong.bench.peers;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import undersong.audio.AudioReader;
import undersong.audio.Recording;
import undersong.bench.render.Truth;
import undersong.feature.FeatureCache;
import undersong.feature.FeatureExtractor;
import undersong.feature.Features;
import undersong.feature.ear.ListeningModel;
import undersong.reading.Reading;
import undersong.work.Cancellation;
import undersong.work.Progress;

/**
 * Undersong without its trained ear: features are measured without it and laid where the program
 * keeps what it measured earlier, so that its estimators find nothing heard.
 */
public final class Classical implements Listener {
  private static final long CACHE_BYTES = 1L << 30;

  private final String featureVersion;

  public Classical() {
    this.featureVersion =
        FeatureExtractor.VERSION
            + ListeningModel.load()
                .map(
                    model -> {
                      try (model) {
                        return "-" + model.version();
                      }
                    })
                .orElse("");
  }

  @Override
  public String name() {
    return "classical";
  }

  /** The worn copies are spared: they would cost half as much time again. */
  @Override
  public boolean hears(String copy) {
    return !copy.equals("worn");
  }

  @Override
  public Heard hear(Path audio, Truth truth) throws IOException {
    Path folder = Files.createTempDirectory("shelf");
    long before = System.nanoTime();
    Recording recording = AudioReader.probe(audio, new Cancellation());
    Features features =
        new FeatureExtractor().extract(recording, Progress.SILENT, new Cancellation());
    new FeatureCache(folder.resolve("features"), CACHE_BYTES).store(features, featureVersion);
    Reading reading = Program.study(audio, folder);
    double seconds = (System.nanoTime() - before) / 1e9;
    Program.delete(folder);
    return Program.of(reading)
        .withCosts(Map.of("speed.realTimeFactor", seconds / truth.durationSeconds()));
  }
}
