package undersong.feature;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Keeps features in files, so that a recording is measured once.
 *
 * <p>One file a recording, named after its content hash. A file appears whole or not at all.
 * Damaged files and files of another version are as good as absent; where the disk is full or may
 * not be written, nothing is kept and work goes on. When the folder outgrows its limit, the files
 * that were not asked for longest go first. Several programs may share a folder.
 */
public final class FeatureCache {
  private static final Logger LOG = LoggerFactory.getLogger(FeatureCache.class);
  private static final String ENDING = ".features";
  private static final Pattern HASH = Pattern.compile("[0-9A-Za-z_-]{1,128}");

  private final Path folder;
  private final long limitBytes;
  private final Clock clock;

  /**
   * @param folder made if absent
   * @param limitBytes that all files together may take; the newest file is kept even above it
   */
  public FeatureCache(Path folder, long limitBytes) {
    this(folder, limitBytes, Clock.systemUTC());
  }

  FeatureCache(Path folder, long limitBytes, Clock clock) {
    if (limitBytes <= 0) {
      throw new IllegalArgumentException(
          "The cache's limit is %d bytes; it must be positive.".formatted(limitBytes));
    }
    this.folder = folder;
    this.limitBytes = limitBytes;
    this.clock = clock;
  }

  /** The features of a recording, if they were kept in exactly this version. */
  public Optional<Features> find(String contentHash, String version) {
    Path file = file(contentHash);
    if (!Files.isRegularFile(file)) {
      return Optional.empty();
    }
    try {
      Optional<Features> found =
          FeatureFile.read(file, version).filter(f -> f.contentHash().equals(contentHash));
      if (found.isPresent()) {
        Files.setLastModifiedTime(file, FileTime.from(clock.instant()));
      }
      return found;
    } catch (IOException | RuntimeException e) {
      LOG.warn("Cached features in {} cannot be read and are made anew: {}", file, e.toString());
      return Optional.empty();
    }
  }

  /** Keeps features; what was kept for the same recording before is replaced. */
  public void store(Features features, String version) {
    Path file = file(features.contentHash());
    try {
      makeFolder();
      Path partial = Files.createTempFile(folder, "partial-", ".tmp");
      try {
        FeatureFile.write(features, version, partial);
        Files.setLastModifiedTime(partial, FileTime.from(clock.instant()));
        Files.move(
            partial, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
      } finally {
        Files.deleteIfExists(partial);
      }
      evict(file);
    } catch (IOException | UncheckedIOException e) {
      LOG.warn("Features could not be kept in {} (is the disk full?): {}", folder, e.toString());
    }
  }

  private void makeFolder() throws IOException {
    try {
      Files.createDirectories(folder);
    } catch (FileAlreadyExistsException e) {
      throw new IOException(folder + " is a file, not a folder", e);
    }
  }

  private void evict(Path newest) throws IOException {
    record Kept(Path file, long bytes, FileTime used) {}
    List<Kept> files = new ArrayList<>();
    try (Stream<Path> listed = Files.list(folder)) {
      for (Path file : (Iterable<Path>) listed::iterator) {
        if (file.getFileName().toString().endsWith(ENDING)) {
          files.add(new Kept(file, Files.size(file), Files.getLastModifiedTime(file)));
        }
      }
    }
    files.sort(Comparator.comparing(Kept::used));
    long total = files.stream().mapToLong(Kept::bytes).sum();
    for (Kept kept : files) {
      if (total <= limitBytes) {
        return;
      }
      if (!kept.file().equals(newest)) {
        Files.deleteIfExists(kept.file());
        total -= kept.bytes();
      }
    }
  }

  private Path file(String contentHash) {
    if (!HASH.matcher(contentHash).matches()) {
      throw new IllegalArgumentException(
          "Content hash \"%s\" must be letters and digits; maybe a path was passed."
              .formatted(contentHash));
    }
    return folder.resolve(contentHash + ENDING);
  }
}
