package undersong.study;

import java.nio.file.Path;
import java.util.Optional;
import undersong.audio.Recording;
import undersong.feature.Features;
import undersong.work.Cancellation;
import undersong.work.Progress;

/** Where recordings and what was measured on them come from. */
interface FeatureSource extends AutoCloseable {
  /** Facts about a file; throws {@link undersong.work.Trouble.UnreadableRecording}. */
  Recording probe(Path file, Cancellation cancellation);

  /** What was measured earlier on sound with this hash, if it is still kept. */
  Optional<Features> cached(String contentHash);

  /** What was measured on it, from the cache where it is there, else measured now. */
  Features features(Recording recording, Progress progress, Cancellation cancellation);

  /** Changes whenever a feature would come out differently. */
  String version();

  /**
   * Whether something was made with this version of the features. Answers without loading what only
   * measuring needs, where it can.
   */
  default boolean made(String version) {
    return version.equals(version());
  }

  @Override
  default void close() {}
}
