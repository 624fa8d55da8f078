package undersong.study;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import undersong.audio.Recording;
import undersong.feature.Features;
import undersong.reading.SampleReadings;
import undersong.work.Cancellation;
import undersong.work.Progress;
import undersong.work.Trouble;

/** Takes a text file for a recording: its text is its content hash, its sound is silence. */
final class FilesOfSilence implements FeatureSource {
  int measurings;
  String version = "silence-1";

  @Override
  public Recording probe(Path file, Cancellation cancellation) {
    try {
      String hash = Files.readString(file);
      return new Recording(
          file, hash, SampleReadings.DURATION_SECONDS, 44_100, 2, Recording.Tags.NONE);
    } catch (java.nio.file.NoSuchFileException missing) {
      throw new Trouble.UnreadableRecording("There is no file " + file, missing);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public Optional<Features> cached(String contentHash) {
    return Optional.empty();
  }

  @Override
  public Features features(Recording recording, Progress progress, Cancellation cancellation) {
    cancellation.check();
    progress.at("measuring", 1);
    measurings++;
    return StandInFeatures.silence(recording.contentHash(), recording.durationSeconds());
  }

  @Override
  public String version() {
    return version;
  }
}
