package undersong.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import undersong.reading.Reading;
import undersong.reading.SampleReadings;
import undersong.shelf.Song;

class ReadingPrinterTest {
  private static final Song SONG =
      new Song(
          1,
          "hash",
          Path.of("/music/low tide.wav"),
          24,
          Song.Words.NONE,
          new Song.Words(
              Optional.of("Low Tide"), Optional.of("The Sample Trio"), Optional.of(2024)),
          Instant.EPOCH);

  @Test
  void show() {
    System.out.println(print(SampleReadings.full()));
    assertThat(1).isEqualTo(2);
  }

  private static String print(Reading reading) {
    return ReadingPrinter.print(SONG, reading);
  }
}
