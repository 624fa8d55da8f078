package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.study.StandInStudy;
import undersong.study.Study;

/** A desk in a process of its own, killed while somebody is talking to it. */
class KilledDeskTest {
  private static final int SAID_AT_LEAST = 15;

  private static final HttpClient CLIENT = HttpClient.newHttpClient();

  @TempDir Path folder;

  /** Serves until it is killed; measuring a recording that is brought in never ends. */
  static final class Desk {
    private Desk() {}

    public static void main(String[] arguments) throws Exception {
      Path folder = Path.of(arguments[0]);
      long song;
      try (Study study = StandInStudy.in(folder)) {
        song = study.study(TestDesk.song(folder, "low tide.wav")).song().id();
      }
      Study study = StandInStudy.in(folder, new CountDownLatch(1));
      DeskServer desk = DeskServer.start(study, folder, 0);
      System.out.println(desk.address() + "api/songs/" + song);
      Thread.sleep(120_000);
    }
  }

  @Test
  void nothingThatWasAnsweredIsLost() throws Exception {
    ProcessBuilder command =
        new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-Xmx256m",
            Desk.class.getName(),
            folder.toString());
    command.environment().put("CLASSPATH", System.getProperty("java.class.path"));
    Process desk = command.redirectError(ProcessBuilder.Redirect.INHERIT).start();
    int answered = 0;
    try (BufferedReader lines =
        new BufferedReader(new InputStreamReader(desk.getInputStream(), StandardCharsets.UTF_8))) {
      String song = lines.readLine();
      String token = Files.readString(folder.resolve("desk.token"));
      String uploads = song.replaceAll("songs/.*", "uploads?name=on%20its%20way.wav");
      byte[] recording = Files.readAllBytes(TestDesk.song(folder, "other.wav", 330));
      assertThat(send(uploads, token, recording)).isEqualTo(202);
      assertThat(send(song + "/remarks", token, "{\"startSeconds\": 1, \"text\": \"kept\"}"))
          .isEqualTo(201);
      Thread killer = new Thread(() -> killSoon(desk));
      try {
        while (true) {
          String beat =
              "{\"corrections\": [{\"kind\": \"BeatAt\", \"seconds\": %d}]}"
                  .formatted(answered % 24);
          if (send(song + "/corrections", token, beat) == 200) {
            answered++;
          }
          if (answered == SAID_AT_LEAST) {
            killer.start();
          }
        }
      } catch (IOException killed) {
        assertThat(answered).isGreaterThanOrEqualTo(SAID_AT_LEAST);
      }
    }
    assertThat(desk.waitFor(30, TimeUnit.SECONDS)).isTrue();
    try (TestDesk again = new TestDesk(folder, StandInStudy.in(folder))) {
      JsonNode page = again.json("/api/songs/1");
      // The one that was being said when the process died may be there too.
      assertThat(page.path("steps").size()).isBetween(answered, answered + 1);
      assertThat(page.path("remarks").get(0).path("text").asText()).isEqualTo("kept");
      assertThat(again.post("/api/songs/1/undo", "").statusCode()).isEqualTo(200);
      for (int i = 0; i < 600 && again.json("/api/songs").path("songs").size() < 2; i++) {
        Thread.sleep(50);
      }
      assertThat(again.json("/api/work").path("work").findValuesAsText("state"))
          .as("what was on its way has arrived")
          .containsExactly("done");
    }
  }

  /** A little later, so that it falls into the middle of what is being said. */
  private static void killSoon(Process desk) {
    try {
      Thread.sleep(37);
    } catch (InterruptedException never) {
      throw new AssertionError(never);
    }
    desk.destroyForcibly();
  }

  private static int send(String address, String token, String body) throws Exception {
    return send(address, token, body.getBytes(StandardCharsets.UTF_8));
  }

  private static int send(String address, String token, byte[] body) throws Exception {
    HttpResponse<String> answer =
        CLIENT.send(
            HttpRequest.newBuilder(URI.create(address))
                .header(Gate.TOKEN_HEADER, token)
                .POST(BodyPublishers.ofByteArray(body))
                .build(),
            BodyHandlers.ofString());
    return answer.statusCode();
  }
}
