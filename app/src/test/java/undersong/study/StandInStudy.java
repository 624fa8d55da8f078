package undersong.study;

import java.nio.file.Path;
import java.time.InstantSource;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.locks.LockSupport;
import undersong.audio.AudioReader;
import undersong.audio.Recording;
import undersong.feature.Features;
import undersong.shelf.Shelf;
import undersong.shelf.ShelfPlace;
import undersong.work.Cancellation;
import undersong.work.Progress;

/**
 * A study that decodes real files but hears the same made-up music in each at once; for tests of
 * what stands in front of it.
 */
public final class StandInStudy {
  private StandInStudy() {}

  /** On a shelf in this folder. */
  public static Study in(Path folder) {
    return in(folder, new CountDownLatch(0));
  }

  /**
   * @param gate measuring a recording for the first time waits for it, and can be cancelled
   *     meanwhile; so it does not for corrections
   */
  public static Study in(Path folder, CountDownLatch gate) {
    return on(ShelfPlace.ofFile(folder.resolve("shelf.db")), gate);
  }

  /** As {@link #in(Path, CountDownLatch)}, by a later version: what is on the shelf is stale. */
  public static Study later(Path folder, CountDownLatch gate) {
    return on(
        ShelfPlace.ofFile(folder.resolve("shelf.db")),
        gate,
        new SaidEstimators().estimators().version("said later"));
  }

  /** On a shelf wherever it lies. */
  public static Study on(ShelfPlace place) {
    return on(place, new CountDownLatch(0));
  }

  private static Study on(ShelfPlace place, CountDownLatch gate) {
    return on(place, gate, new SaidEstimators().estimators());
  }

  private static Study on(ShelfPlace place, CountDownLatch gate, Estimators estimators) {
    return new Study(
        Shelf.open(place),
        new DecodedFiles(gate),
        estimators,
        new Renderings(place.folder().resolve("renderings"), InstantSource.system()),
        InstantSource.system());
  }

  private record DecodedFiles(CountDownLatch gate) implements FeatureSource {
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
      progress.at("measuring", 0.5);
      while (progress != Progress.SILENT && gate.getCount() > 0) {
        progress.at("measuring", 0.5);
        cancellation.check();
        LockSupport.parkNanos(2_000_000);
      }
      return StandInFeatures.silence(recording.contentHash(), recording.durationSeconds());
    }

    @Override
    public String version() {
      return "decoded-1";
    }
  }
}
