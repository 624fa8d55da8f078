package undersong.study;

import java.io.IOException;
import java.lang.ref.SoftReference;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import undersong.audio.Recording;
import undersong.feature.Features;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Provenance;
import undersong.shelf.Origin;
import undersong.shelf.Shelf;
import undersong.shelf.Song;
import undersong.shelf.Step;
import undersong.shelf.StoredReading;
import undersong.shelf.StudiedFile;
import undersong.study.Derivation.Basis;
import undersong.study.Derivation.Outcome;
import undersong.work.Cancellation;
import undersong.work.Progress;
import undersong.work.Trouble;

/**
 * The reading of each song as it stands now: kept with the corrections it was derived with, and
 * derived again where the log says more (a correction, a taking back, another program, a program
 * killed before it could answer) or where other versions made it. Callers hold the song's lock.
 */
final class CurrentReadings {
  private final Shelf shelf;
  private final FeatureSource source;
  private final Derivation derivation;
  private final Estimators estimators;

  /** What was last worked on, by song; let go when memory runs short. */
  private final Map<Long, SoftReference<Features>> measured = new ConcurrentHashMap<>();

  private final Map<Long, SoftReference<StoredReading>> heard = new ConcurrentHashMap<>();
  private final Map<Long, Checked> checked = new ConcurrentHashMap<>();

  CurrentReadings(Shelf shelf, FeatureSource source, Estimators estimators) {
    this.shelf = shelf;
    this.source = source;
    this.derivation = new Derivation(estimators);
    this.estimators = estimators;
  }

  Derivation derivation() {
    return derivation;
  }

  /** Derives everything anew and puts song and reading on the shelf together. */
  Studied studied(
      StudiedFile facts, Features features, Progress progress, Cancellation cancellation) {
    while (true) {
      Corrections said =
          shelf
              .songs()
              .withContent(facts.contentHash())
              .map(song -> shelf.corrections().inForce(song.id()))
              .orElse(Corrections.NONE);
      Outcome outcome = derivation.derive(features, Optional.empty(), said, progress, cancellation);
      Optional<Song> song =
          shelf.keep(facts, outcome.reading(), ids(said), provenance(outcome, Map.of()));
      if (song.isPresent()) {
        return new Studied(song.get(), latest(song.get()).orElseThrow());
      }
    }
  }

  /** Keeps a reading made elsewhere; false where what is here is as good, or was corrected. */
  boolean kept(Heard heard) {
    Optional<Song> here = shelf.songs().withContent(heard.facts().contentHash());
    boolean asGood =
        here.filter(song -> song.origin() == Origin.RECORDING)
            .flatMap(this::latest)
            .filter(stored -> stored.provenance().sameVersions(heard.provenance()))
            .isPresent();
    return !asGood
        && shelf.keep(heard.facts(), heard.reading(), List.of(), heard.provenance()).isPresent();
  }

  /** The reading as it stands, derived again where it is stale. */
  StoredReading of(Song song) {
    return of(song, Progress.SILENT);
  }

  /**
   * @param progress told what is measured and derived again, if anything is
   */
  StoredReading of(Song song, Progress progress) {
    if (song.origin() != Origin.RECORDING) {
      return latest(song).orElseThrow(() -> new IllegalStateException("No reading of " + song));
    }
    while (true) {
      Corrections said = shelf.corrections().inForce(song.id());
      Optional<StoredReading> before = latest(song).filter(this::hasTheseVersions);
      if (before.isPresent() && before.get().inForce().equals(ids(said))) {
        return before.get();
      }
      Outcome outcome =
          derivation.derive(
              features(song, progress),
              before.map(this::basis),
              said,
              progress,
              new Cancellation());
      Map<String, Double> earlier =
          before.map(b -> b.provenance().facetMilliseconds()).orElse(Map.of());
      Optional<StoredReading> stored =
          shelf
              .readings()
              .store(song.id(), outcome.reading(), ids(said), provenance(outcome, earlier));
      if (stored.isPresent()) {
        heard.put(song.id(), new SoftReference<>(stored.get()));
        return stored.get();
      }
    }
  }

  /** The reading on the shelf, stale or not; empty where none can be understood. */
  Optional<StoredReading> latest(Song song) {
    SoftReference<StoredReading> reference = heard.get(song.id());
    StoredReading known = reference == null ? null : reference.get();
    if (known != null && known.revision() == shelf.readings().revision(song.id())) {
      return Optional.of(known);
    }
    Optional<StoredReading> stored = shelf.readings().latest(song.id());
    stored.ifPresent(reading -> heard.put(song.id(), new SoftReference<>(reading)));
    return stored;
  }

  /** A reading with the corrections it was derived with, some of which may be taken back by now. */
  Basis basis(StoredReading stored) {
    List<CorrectionEntry> said =
        shelf.corrections().steps(stored.songId()).stream()
            .map(Step::entries)
            .flatMap(List::stream)
            .filter(entry -> stored.inForce().contains(entry.id()))
            .toList();
    return new Basis(stored.reading(), new Corrections(said));
  }

  /** What was measured on a song: in memory, in the cache, or measured again on its file. */
  Features features(Song song) {
    return features(song, Progress.SILENT);
  }

  private Features features(Song song, Progress progress) {
    requireSound(song);
    SoftReference<Features> reference = measured.get(song.id());
    Features known = reference == null ? null : reference.get();
    if (known != null) {
      return known;
    }
    Features features =
        source
            .cached(song.contentHash())
            .orElseGet(() -> source.features(file(song), progress, new Cancellation()));
    measured.put(song.id(), new SoftReference<>(features));
    return features;
  }

  /** The song's recording, checked to be the one that was studied; again where its file changed. */
  Recording recording(Song song) {
    requireSound(song);
    FileTime changed = lastChange(song.path());
    Checked known = checked.get(song.id());
    if (known == null || !known.path().equals(song.path()) || !known.changed().equals(changed)) {
      known = new Checked(song.path(), changed, file(song));
      checked.put(song.id(), known);
    }
    return known.recording();
  }

  private static void requireSound(Song song) {
    if (song.origin() != Origin.RECORDING) {
      throw new Trouble.WrongUsage(
          """
          Song %d (%s) is known from a %s only: there is no recording to play, measure or correct. \
          Study a recording of it; a song from memory can then be checked against it.\
          """
              .formatted(song.id(), song.title(), song.origin().word()));
    }
  }

  private static FileTime lastChange(Path path) {
    try {
      return Files.getLastModifiedTime(path);
    } catch (IOException gone) {
      return FileTime.fromMillis(0);
    }
  }

  private record Checked(Path path, FileTime changed, Recording recording) {}

  private Recording file(Song song) {
    Recording recording = source.probe(song.path(), new Cancellation());
    if (!recording.contentHash().equals(song.contentHash())) {
      throw new Trouble.UnreadableRecording(
          """
          %s no longer holds the sound of song %d (%s), which must be measured again. \
          Maybe the file was replaced; study the right file once, wherever it lies now.\
          """
              .formatted(song.path(), song.id(), song.title()));
    }
    return recording;
  }

  private boolean hasTheseVersions(StoredReading stored) {
    return source.made(stored.provenance().featureVersion())
        && stored.provenance().estimatorVersion().equals(estimators.version());
  }

  private Provenance provenance(Outcome outcome, Map<String, Double> earlierMilliseconds) {
    Map<String, Double> milliseconds = new LinkedHashMap<>(earlierMilliseconds);
    milliseconds.putAll(outcome.milliseconds());
    return provenance(milliseconds);
  }

  Provenance provenance(Map<String, Double> milliseconds) {
    return new Provenance(source.version(), estimators.version(), milliseconds);
  }

  private static List<Long> ids(Corrections said) {
    return said.entries().stream().map(CorrectionEntry::id).toList();
  }
}
