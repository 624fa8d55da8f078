package undersong.shelf;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import undersong.reading.Provenance;
import undersong.reading.Reading;

/**
 * Every song studied, with its latest reading and the log of what the listener said. Safe for
 * several threads and several programs at once; each change is one transaction.
 */
public final class Shelf implements AutoCloseable {
  private final ShelfDatabase database;
  private final Songs songs;
  private final CorrectionLog corrections;
  private final Readings readings;
  private final Remarks remarks;
  private final Hearings hearings;
  private final Settings settings;
  private final Arrivals arrivals;
  private final Verdicts verdicts;
  private final FindingIndex findings;
  private final Lessons lessons;
  private final SearchLines search;
  private final CountedSongs counted;
  private final SoundlessSongs soundless;

  private Shelf(ShelfDatabase database) {
    this.database = database;
    this.songs = new Songs(database);
    this.corrections = new CorrectionLog(database);
    this.readings = new Readings(database);
    this.remarks = new Remarks(database);
    this.hearings = new Hearings(database);
    this.settings = new Settings(database);
    this.arrivals = new Arrivals(database);
    this.verdicts = new Verdicts(database);
    this.findings = new FindingIndex(database);
    this.lessons = new Lessons(database);
    this.search = new SearchLines(database);
    this.counted = new CountedSongs(database);
    this.soundless = new SoundlessSongs(database);
  }

  /** Opens the shelf, or lays out a new one where there is none yet. */
  public static Shelf open(ShelfPlace place) {
    return new Shelf(ShelfDatabase.open(place));
  }

  /** As {@link #open(ShelfPlace)}, in a file. */
  public static Shelf open(Path file) {
    return open(ShelfPlace.ofFile(file));
  }

  public ShelfPlace place() {
    return database.place();
  }

  public Songs songs() {
    return songs;
  }

  public CorrectionLog corrections() {
    return corrections;
  }

  public Readings readings() {
    return readings;
  }

  public Remarks remarks() {
    return remarks;
  }

  public Hearings hearings() {
    return hearings;
  }

  public Settings settings() {
    return settings;
  }

  public Arrivals arrivals() {
    return arrivals;
  }

  public Verdicts verdicts() {
    return verdicts;
  }

  public FindingIndex findings() {
    return findings;
  }

  public Lessons lessons() {
    return lessons;
  }

  /** Charts, and songs from memory. */
  public SoundlessSongs soundless() {
    return soundless;
  }

  public SearchLines search() {
    return search;
  }

  /** What is counted of each song. */
  public CountedSongs counted() {
    return counted;
  }

  /**
   * Puts a studied song on the shelf, or brings a known one up to date: song and reading together,
   * or nothing. Empty, and nothing written, if the corrections in force are no longer those the
   * reading was derived with.
   */
  public Optional<Song> keep(
      StudiedFile facts, Reading reading, List<Long> inForce, Provenance provenance) {
    return database.write(
        handle -> {
          Song song = songs.put(handle, facts);
          if (Readings.store(handle, song.id(), reading, inForce, provenance).isEmpty()) {
            handle.rollback();
            return Optional.empty();
          }
          return Optional.of(song);
        });
  }

  /** What it takes on disk. */
  public long sizeBytes() {
    return database.sizeBytes();
  }

  /** Writes the whole shelf to one new file; recordings stay where they are. */
  public void saveTo(Path copy) {
    ShelfCopy.save(database, copy);
  }

  /** Fills this shelf, which must hold no song, from a file written by {@link #saveTo}. */
  public void loadFrom(Path copy) {
    ShelfCopy.load(database, copy);
  }

  @Override
  public void close() {
    database.close();
  }
}
