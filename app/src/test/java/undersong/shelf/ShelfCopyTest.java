package undersong.shelf;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.Parameter;
import org.junit.jupiter.params.ParameterizedClass;
import org.junit.jupiter.params.provider.CsvSource;
import undersong.reading.Correction;
import undersong.reading.Provenance;
import undersong.reading.SampleReadings;
import undersong.search.SongLines;
import undersong.work.Trouble;

@ParameterizedClass
@CsvSource({"FILE, FILE", "FILE, SERVER", "SERVER, FILE", "SERVER, SERVER"})
class ShelfCopyTest {
  @Parameter(0)
  Store saved;

  @Parameter(1)
  Store loaded;

  private static final Provenance MADE_WITH = new Provenance("f1", "e1", Map.of());

  @TempDir Path folder;
  private Shelf shelf;
  private Shelf other;

  @BeforeEach
  void openTwo() {
    shelf = Shelf.open(saved.fresh(folder.resolve("one")));
    other = Shelf.open(loaded.fresh(folder.resolve("two")));
  }

  @AfterEach
  void close() {
    shelf.close();
    other.close();
  }

  @Test
  void whatIsLoadedIsWhatWasSaved() {
    Song song = keep(shelf, "hash-1");
    shelf.corrections().append(song.id(), "ada", Instant.EPOCH, List.of(new Correction.BeatAt(1)));
    shelf.search().save("turns", "ada", "chords I IV", Instant.EPOCH);
    Path file = folder.resolve("saved.shelf");
    shelf.saveTo(file);
    other.loadFrom(file);
    assertThat(other.songs().list("")).isEqualTo(shelf.songs().list(""));
    assertThat(other.readings().latest(song.id())).isEqualTo(shelf.readings().latest(song.id()));
    assertThat(other.corrections().inForce(song.id()))
        .isEqualTo(shelf.corrections().inForce(song.id()));
    assertThat(other.search().saved())
        .containsExactly(new SavedSearch("turns", "ada", "chords I IV"));
    assertThat(other.search().all().get(song.id()).lines())
        .isEqualTo(shelf.search().all().get(song.id()).lines())
        .isNotEqualTo(SongLines.NONE);
    // What is added later gets a number of its own.
    assertThat(keep(other, "hash-2").id()).isNotEqualTo(song.id());
  }

  @Test
  void nothingIsOverwrittenBySaving() throws IOException {
    Path file = Files.writeString(folder.resolve("letter.txt"), "dear");
    assertThatThrownBy(() -> shelf.saveTo(file))
        .isInstanceOf(Trouble.WrongUsage.class)
        .hasMessageContaining("exists already");
    assertThat(file).hasContent("dear");
  }

  @Test
  void aShelfWithSongsIsNotLoadedOver() {
    keep(shelf, "hash-1");
    Song there = keep(other, "hash-9");
    Path file = folder.resolve("saved.shelf");
    shelf.saveTo(file);
    assertThatThrownBy(() -> other.loadFrom(file))
        .isInstanceOf(Trouble.WrongUsage.class)
        .hasMessageContaining("songs already (1)");
    assertThat(other.songs().list("")).extracting(ShelfEntry::song).containsExactly(there);
  }

  @Test
  void ofADamagedFileNothingIsLoaded() throws IOException {
    for (int i = 0; i < 20; i++) {
      keep(shelf, "hash-" + i);
    }
    Path whole = folder.resolve("saved.shelf");
    shelf.saveTo(whole);
    byte[] bytes = Files.readAllBytes(whole);
    for (byte[] damaged :
        List.of(
            Arrays.copyOf(bytes, bytes.length / 2),
            "no shelf at all".getBytes(java.nio.charset.StandardCharsets.UTF_8),
            new byte[0])) {
      Path file = Files.write(folder.resolve("damaged.shelf"), damaged);
      assertThatThrownBy(() -> other.loadFrom(file))
          .isInstanceOf(Trouble.WrongUsage.class)
          .hasMessageContaining("no saved shelf");
      assertThat(other.songs().list("")).isEmpty();
    }
    try (var left = Files.list(other.place().folder())) {
      assertThat(left.filter(file -> file.toString().contains("loading"))).isEmpty();
    }
    other.loadFrom(whole);
    assertThat(other.songs().list("")).hasSize(20);
  }

  private static Song keep(Shelf shelf, String hash) {
    StudiedFile facts =
        new StudiedFile(
            hash, Path.of("/music/" + hash + ".wav"), 24, Song.Words.NONE, Song.Words.NONE);
    return shelf.keep(facts, SampleReadings.full(), List.of(), MADE_WITH).orElseThrow();
  }
}
