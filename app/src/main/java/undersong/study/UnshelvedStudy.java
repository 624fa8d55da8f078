package undersong.study;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import undersong.audio.Recording;
import undersong.feature.Features;
import undersong.reading.Corrections;
import undersong.reading.Provenance;
import undersong.reading.Reading;
import undersong.shelf.Song;
import undersong.technique.Finding;
import undersong.trend.NumeralLine;
import undersong.work.Cancellation;
import undersong.work.Progress;

/**
 * The path from a file to its findings without a shelf: nothing is kept but what is handed back.
 * For whoever studies recordings by the thousand and keeps them in a place of their own. Safe for
 * several threads.
 */
public final class UnshelvedStudy implements AutoCloseable {
  private final RecordedFeatures source;
  private final Estimators estimators = Estimators.standard();
  private final Derivation derivation = new Derivation(estimators);

  private UnshelvedStudy(RecordedFeatures source) {
    this.source = source;
  }

  /**
   * @param threads that studying one recording may use beside its own
   */
  public static UnshelvedStudy withThreads(int threads) {
    return new UnshelvedStudy(RecordedFeatures.unkept(threads));
  }

  /** Facts about a file; throws {@link undersong.work.Trouble.UnreadableRecording}. */
  public Recording probe(Path file) {
    return source.probe(file, new Cancellation());
  }

  /**
   * What is heard in a recording, as {@link Study#study(Path)} would hear it. The times each facet
   * took are left out, so that equal recordings give equal values.
   */
  public Heard study(Recording recording, Song.Words said) {
    Cancellation never = new Cancellation();
    Features features = source.features(recording, Progress.SILENT, never);
    Reading reading =
        derivation
            .derive(features, Optional.empty(), Corrections.NONE, Progress.SILENT, never)
            .reading();
    return new Heard(
        Study.facts(recording, said),
        reading,
        new Provenance(source.version(), estimators.version(), Map.of()));
  }

  /** Every technique found in a reading, by start; doubtful ones too. */
  public static List<Finding> findings(Reading reading) {
    return TechniqueFinders.standard().in(reading);
  }

  /**
   * Changes whenever a reading, its findings or its line of numerals would come out differently.
   */
  public String version() {
    return String.join(
        " ", source.version(), estimators.version(), TechniqueFinders.VERSION, NumeralLine.VERSION);
  }

  @Override
  public void close() {
    source.close();
  }
}
