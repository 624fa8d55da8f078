package undersong.study;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import undersong.exchange.JamsReader;
import undersong.exchange.JamsReading;
import undersong.exchange.JamsWriter;
import undersong.exchange.SongFacts;
import undersong.reading.Reading;
import undersong.shelf.Origin;
import undersong.shelf.Shelf;
import undersong.shelf.ShelfEntry;
import undersong.shelf.Song;
import undersong.work.Trouble;

/** A whole shelf as a folder of JAMS files, one a song; a bad file never stops the rest. */
public final class JamsFolder {
  private final Study study;
  private final Shelf shelf;

  JamsFolder(Study study, Shelf shelf) {
    this.study = study;
    this.shelf = shelf;
  }

  /**
   * What came of it.
   *
   * @param written or read as songs without sound
   * @param corrected songs on the shelf whose readings the files corrected
   * @param known files of charts and memories that are there already
   * @param failed one line for each: which and why
   */
  public record Outcome(int written, int corrected, int known, List<String> failed) {
    public Outcome {
      failed = List.copyOf(failed);
    }
  }

  /**
   * Writes the songs of these origins as {@code <number>-<title>.jams}; a file of that name is
   * overwritten.
   */
  public Outcome write(Path folder, Set<Origin> origins) {
    try {
      Files.createDirectories(folder);
    } catch (IOException refused) {
      throw new Trouble.WrongUsage(
          "%s must be a folder that can be written to: %s".formatted(folder, refused.getMessage()));
    }
    int written = 0;
    List<String> failed = new ArrayList<>();
    for (ShelfEntry entry : study.songs("", origins)) {
      Song song = entry.song();
      try {
        Reading reading = study.reading(song.id()).stored().reading();
        Files.writeString(folder.resolve(name(song)), JamsWriter.print(reading, facts(song)));
        written++;
      } catch (IOException | Trouble refused) {
        failed.add("song %d: %s".formatted(song.id(), refused.getMessage()));
      }
    }
    return new Outcome(written, 0, 0, failed);
  }

  /**
   * Reads every {@code .jams} file of a folder. A file of a recording on the shelf becomes one step
   * of corrections; any other a song without sound, its harmony, tune and bass only.
   *
   * @param author who says the corrections
   */
  public Outcome read(Path folder, String author) {
    int added = 0;
    int corrected = 0;
    int known = 0;
    List<String> failed = new ArrayList<>();
    for (Path file : files(folder)) {
      try {
        String text = Files.readString(file);
        JamsReader.About about = JamsReader.about(text);
        JamsReader.Said said = JamsReader.read(text);
        Optional<Song> song = shelf.songs().withContent(identity(file, about));
        if (song.isEmpty()) {
          keep(file, about, said);
          added++;
        } else if (song.get().origin() == Origin.RECORDING) {
          if (!said.corrections().isEmpty()) {
            study.correct(song.get().id(), said.corrections(), author);
            corrected++;
          }
        } else {
          known++;
        }
      } catch (IOException | IllegalArgumentException | Trouble refused) {
        failed.add(file.getFileName() + ": " + refused.getMessage());
      }
    }
    return new Outcome(added, corrected, known, failed);
  }

  private void keep(Path file, JamsReader.About about, JamsReader.Said said) {
    if (!(about.durationSeconds() > 0)) {
      throw new IllegalArgumentException("it states no duration");
    }
    String title = about.facts().title();
    shelf
        .soundless()
        .keepChart(
            identity(file, about),
            Song.Words.ofTags(
                title.isBlank() ? file.getFileName().toString() : title,
                about.facts().artist(),
                year(about.facts().year())),
            "JAMS file " + file.getFileName(),
            SongsWithoutSound.withHarmony(JamsReading.of(said, about.durationSeconds())),
            SongsWithoutSound.PAPER);
  }

  private static String identity(Path file, JamsReader.About about) {
    String hash = about.facts().contentHash();
    return hash.isBlank() ? "jams:" + file.getFileName() : hash;
  }

  private static int year(String text) {
    return text.matches("\\d{4}.*") ? Integer.parseInt(text.substring(0, 4)) : 0;
  }

  private static SongFacts facts(Song song) {
    return new SongFacts(
        song.title(),
        song.artist().orElse(""),
        song.year().map(String::valueOf).orElse(""),
        song.contentHash());
  }

  private static String name(Song song) {
    String plain = song.title().toLowerCase(Locale.ROOT).replaceAll("[^\\p{L}\\p{N}]+", "-");
    String shortened = plain.substring(0, Math.min(60, plain.length()));
    return "%05d-%s.jams".formatted(song.id(), shortened.replaceAll("^-|-$", ""));
  }

  private static List<Path> files(Path folder) {
    try (Stream<Path> entries = Files.list(folder)) {
      return entries.filter(file -> file.toString().endsWith(".jams")).sorted().toList();
    } catch (IOException refused) {
      throw new Trouble.WrongUsage(
          "%s must be a folder of JAMS files: %s".formatted(folder, refused.getMessage()));
    }
  }
}
