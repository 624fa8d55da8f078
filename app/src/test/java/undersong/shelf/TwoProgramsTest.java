package undersong.shelf;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.Parameter;
import org.junit.jupiter.params.ParameterizedClass;
import org.junit.jupiter.params.provider.EnumSource;
import undersong.reading.Correction;

/** Programs of their own, each in its own process, on one shelf. */
@ParameterizedClass
@EnumSource(Store.class)
class TwoProgramsTest {
  @Parameter Store store;
  private static final int SAID = 12;

  @TempDir Path folder;

  /** Says one thing after the other, acknowledging each on standard output, without end. */
  static final class Talker {
    private Talker() {}

    public static void main(String[] arguments) throws InterruptedException {
      try (Shelf shelf = Shelf.open(ShelfPlace.named(arguments[0]))) {
        long song = CorrectionLogTest.song(shelf, arguments[1]);
        System.out.println("song " + song);
        for (int second = 1; second <= Integer.parseInt(arguments[2]); second++) {
          shelf
              .corrections()
              .append(song, "me", Instant.EPOCH, List.of(new Correction.BeatAt(second)));
          System.out.println("said " + second);
        }
        if (arguments.length > 3) {
          Thread.sleep(60_000);
        }
      }
    }
  }

  @Test
  void aKilledProgramLosesNothingThatWasAcknowledged() throws Exception {
    ShelfPlace place = store.fresh(folder);
    Process talker = start(place, "hash", "wait");
    long song;
    try (BufferedReader lines = lines(talker)) {
      song = Long.parseLong(lines.readLine().substring("song ".length()));
      for (int second = 1; second <= SAID; second++) {
        assertThat(lines.readLine()).isEqualTo("said " + second);
      }
      talker.destroyForcibly();
      assertThat(talker.waitFor(20, TimeUnit.SECONDS)).isTrue();
    }
    try (Shelf shelf = Shelf.open(place)) {
      assertThat(shelf.corrections().inForce(song).entries()).hasSize(SAID);
      assertThat(shelf.readings().latest(song)).isPresent();
      shelf.corrections().append(song, "me", Instant.EPOCH, List.of(new Correction.BeatAt(99)));
      assertThat(shelf.corrections().inForce(song).entries()).hasSize(SAID + 1);
    }
  }

  @Test
  void twoProgramsStartANewShelfAndTalkAtOnce() throws Exception {
    ShelfPlace place = store.fresh(folder);
    List<Process> talkers = List.of(start(place, "one"), start(place, "two"));
    for (Process talker : talkers) {
      List<String> answers = new ArrayList<>();
      try (BufferedReader lines = lines(talker)) {
        lines.lines().forEach(answers::add);
      }
      assertThat(talker.waitFor()).as("answers: %s", answers).isZero();
      assertThat(answers).endsWith("said " + SAID);
    }
    try (Shelf shelf = Shelf.open(place)) {
      assertThat(shelf.songs().list("")).hasSize(2);
      for (ShelfEntry entry : shelf.songs().list("")) {
        assertThat(shelf.corrections().inForce(entry.song().id()).entries()).hasSize(SAID);
      }
    }
  }

  private Process start(ShelfPlace place, String hash, String... more) throws Exception {
    List<String> command =
        new ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx128m",
                "-Duser.home=" + folder, // its own folder of the shared shelf
                "-cp",
                System.getProperty("java.class.path"),
                Talker.class.getName(),
                Store.address(place),
                hash,
                Integer.toString(SAID)));
    command.addAll(List.of(more));
    return new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.INHERIT).start();
  }

  private static BufferedReader lines(Process process) {
    return new BufferedReader(
        new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
  }
}
