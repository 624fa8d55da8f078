package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;

import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.reading.Correction;
import undersong.study.StandInStudy;
import undersong.study.Study;

class EventsTest {
  @TempDir Path folder;
  private TestDesk desk;
  private long song;

  @BeforeEach
  void open() throws Exception {
    desk = new TestDesk(folder, StandInStudy.in(folder));
    song = desk.study.study(TestDesk.song(folder, "low tide.wav")).song().id();
  }

  @AfterEach
  void close() {
    desk.close();
  }

  /** A window's lines, as they come. */
  private BlockingQueue<String> window() throws Exception {
    BlockingQueue<String> lines = new LinkedBlockingQueue<>();
    HttpResponse<Stream<String>> answer =
        desk.client.send(
            desk.request("/api/events", "Accept", "text/event-stream").GET().build(),
            BodyHandlers.ofLines());
    assertThat(answer.statusCode()).isEqualTo(200);
    Thread reader =
        new Thread(
            () -> {
              try {
                answer.body().forEach(lines::add);
              } catch (java.io.UncheckedIOException ended) {
                lines.add("ended");
              }
            });
    reader.setDaemon(true);
    reader.start();
    assertThat(next(lines, ":")).contains("listening");
    return lines;
  }

  private static String next(BlockingQueue<String> lines, String beginning) throws Exception {
    String line;
    do {
      line = lines.poll(30, TimeUnit.SECONDS);
      assertThat(line).as("a line that begins with %s", beginning).isNotNull();
    } while (!line.startsWith(beginning));
    return line;
  }

  @Test
  void whatIsSaidWhileTheDeskClosesDoesNotFail() {
    Events events = new Events(desk.study);
    events.close();
    assertThatCode(() -> events.song(song)).doesNotThrowAnyException();
  }

  @Test
  void everyWindowHearsWhatOneSays() throws Exception {
    BlockingQueue<String> one = window();
    BlockingQueue<String> other = window();
    desk.post(
        "/api/songs/" + song + "/corrections",
        "{\"corrections\": [{\"kind\": \"BeatAt\", \"seconds\": 1}]}");
    for (BlockingQueue<String> window : List.of(one, other)) {
      until(window, "{\"song\":" + song + ",\"revision\":2}");
    }
    desk.send("PATCH", "/api/settings", "{\"noteNames\": \"german\"}");
    until(other, "\"noteNames\":\"german\"");
  }

  @Test
  void whatAnotherProgramSaysIsNoticed() throws Exception {
    BlockingQueue<String> window = window();
    try (Study other = StandInStudy.in(folder)) {
      other.correct(song, new Correction.BeatAt(2));
    }
    until(window, "{\"song\":" + song + ",\"revision\":2}");
  }

  /** Reads on to the event that says this. */
  private static void until(BlockingQueue<String> lines, String words) throws Exception {
    String data;
    do {
      data = next(lines, "data");
    } while (!data.contains(words));
  }
}
