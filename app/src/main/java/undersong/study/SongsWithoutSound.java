package undersong.study;

import java.io.IOException;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import undersong.estimate.harmony.KeyedHarmonyEstimator;
import undersong.exchange.PaperSong;
import undersong.exchange.PaperSongs;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Provenance;
import undersong.reading.Reading;
import undersong.shelf.Memory;
import undersong.shelf.Origin;
import undersong.shelf.Shelf;
import undersong.shelf.Song;
import undersong.technique.Finding;
import undersong.technique.Technique;
import undersong.work.Trouble;

/**
 * Songs of which no recording is at hand: published charts, and what listeners remember. They are
 * listed, searched and counted like others, and counted apart from them.
 */
public final class SongsWithoutSound {
  /** Charts tell no tempo; this one only spaces them out. */
  private static final double PAPER_BPM = 120;

  private static final double TOLD = 0.5;

  /** Facets as a chart gives them, and HARMONY derived from them. */
  static final Provenance PAPER = new Provenance("no sound", "paper-1", Map.of());

  private final Study study;
  private final Shelf shelf;
  private final InstantSource clock;

  SongsWithoutSound(Study study, Shelf shelf, InstantSource clock) {
    this.study = study;
    this.shelf = shelf;
    this.clock = clock;
  }

  /**
   * What came of loading charts.
   *
   * @param added new on the shelf
   * @param known that were there already, and stay
   * @param refused one line for each file that could not be read
   */
  public record Loaded(int added, int known, List<String> refused) {
    public Loaded {
      refused = List.copyOf(refused);
    }
  }

  /**
   * Puts the charts of a folder of open data on the shelf, with harmony and form only; those there
   * already stay as they are. Throws {@link Trouble.WrongUsage} where the folder holds none.
   */
  public Loaded loadCharts(Path folder) {
    PaperSongs charts;
    try {
      charts = PaperSongs.in(folder);
    } catch (IOException cause) {
      throw new Trouble.WrongUsage(
          "No charts can be read in %s: %s".formatted(folder, cause.getMessage()));
    }
    int added = 0;
    int known = 0;
    for (PaperSong song : charts.songs()) {
      String identity = "chart:" + song.id();
      if (shelf.songs().withContent(identity).isPresent()) {
        known++;
        continue;
      }
      shelf
          .soundless()
          .keepChart(
              identity,
              Song.Words.ofTags(song.title(), song.artist(), 0),
              song.source(),
              withHarmony(song.chart().read(PAPER_BPM)),
              PAPER);
      added++;
    }
    return new Loaded(added, known, charts.refused());
  }

  /**
   * A song as a listener remembers it.
   *
   * @param key such as "A natural minor"; "" where it is not known
   * @param numerals such as "I iii IV iv", against the major scale; "" for none
   * @param syllables of a figure, such as "do re mi"; "" for none
   */
  public record Remembered(
      Song.Words words,
      String key,
      String numerals,
      String syllables,
      List<Technique> techniques,
      String said) {
    public Remembered {
      techniques = List.copyOf(techniques);
    }
  }

  /**
   * Keeps what is remembered, marked unchecked; gives the number of the song. Throws {@link
   * Trouble.WrongUsage} where a title is missing, nothing is said, or a word cannot be read.
   */
  public long remember(Remembered remembered, String author) {
    if (remembered.words().title().isEmpty()) {
      throw new Trouble.WrongUsage("A song from memory needs a title.");
    }
    if (remembered.numerals().isBlank()
        && remembered.syllables().isBlank()
        && remembered.techniques().isEmpty()
        && remembered.said().isBlank()) {
      throw new Trouble.WrongUsage(
          "Of \"%s\" nothing is said; say numerals, a figure, a technique or a word."
              .formatted(remembered.words().title().get()));
    }
    Reading reading =
        withHarmony(
            RememberedMusic.read(
                remembered.key(), remembered.numerals(), remembered.syllables(), PAPER_BPM));
    return shelf
        .soundless()
        .keepMemory(
            "memory:" + UUID.randomUUID(),
            remembered.words(),
            new Memory(
                0,
                author,
                clock.instant(),
                remembered.numerals().strip(),
                remembered.syllables().strip(),
                remembered.techniques(),
                remembered.said().strip(),
                OptionalLong.empty()),
            reading,
            PAPER);
  }

  /** What is remembered of a song; empty where it is no memory. */
  public Optional<Memory> memory(long songId) {
    return shelf.soundless().memory(shelf.songs().get(songId).id());
  }

  /**
   * One thing remembered, held against a recording.
   *
   * @param what in words
   * @param confirmed whether the reading of the recording holds it; where it does not, the ear or
   *     the program may be wrong
   */
  public record Checked(String what, boolean confirmed) {}

  /**
   * Puts a recording beside what is remembered, and says what it confirms and what it does not.
   * Throws {@link Trouble.WrongUsage} where the first is no memory or the second no recording.
   */
  public List<Checked> check(long memoryId, long recordingId) {
    Memory memory =
        memory(memoryId)
            .orElseThrow(
                () ->
                    new Trouble.WrongUsage(
                        "Song %d is not from memory; name one that is.".formatted(memoryId)));
    Song song = shelf.songs().get(recordingId);
    if (song.origin() != Origin.RECORDING) {
      throw new Trouble.WrongUsage(
          "Song %d is known from a %s only; name one that was heard from a recording."
              .formatted(recordingId, song.origin().word()));
    }
    Reading heard = study.reading(recordingId).stored().reading();
    List<Finding> findings = study.findings(recordingId);
    shelf.soundless().attach(memoryId, recordingId);
    List<Checked> checked = new java.util.ArrayList<>();
    if (!memory.numerals().isEmpty()) {
      checked.add(
          new Checked(
              "the chords " + memory.numerals(),
              RememberedMusic.hasNumerals(heard, memory.numerals())));
    }
    if (!memory.syllables().isEmpty()) {
      Reading figure = study.reading(memoryId).stored().reading();
      checked.add(
          new Checked(
              "the figure " + memory.syllables(), RememberedMusic.hasFigure(heard, figure)));
    }
    Set<Technique> found =
        findings.stream()
            .filter(finding -> finding.probability() >= TOLD)
            .map(Finding::technique)
            .collect(Collectors.toSet());
    for (Technique technique : memory.techniques()) {
      checked.add(new Checked(technique.id().replace('-', ' '), found.contains(technique)));
    }
    return List.copyOf(checked);
  }

  static Reading withHarmony(Reading reading) {
    return SilentFacets.fill(
        reading.with(Facet.HARMONY, Derived.of(KeyedHarmonyEstimator.of(reading))));
  }
}
