package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.http.ContentTooLargeResponse;
import io.javalin.http.RequestTimeoutResponse;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.net.URLEncoder;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.study.StandInStudy;

class WorkRoutesTest {
  @TempDir Path folder;
  private final CountDownLatch gate = new CountDownLatch(1);
  private TestDesk desk;
  private Path song;

  @BeforeEach
  void open() throws Exception {
    song = TestDesk.song(folder, "elsewhere.wav");
    desk = new TestDesk(folder, StandInStudy.in(folder, gate));
  }

  @AfterEach
  void close() {
    gate.countDown();
    desk.close();
  }

  private HttpResponse<String> upload(String name, byte[] bytes) throws Exception {
    String path = "/api/uploads?name=" + URLEncoder.encode(name, StandardCharsets.UTF_8);
    return desk.client.send(
        desk.request(path, Gate.TOKEN_HEADER, desk.token)
            .POST(BodyPublishers.ofByteArray(bytes))
            .build(),
        BodyHandlers.ofString());
  }

  private JsonNode onlyOnce(String state) throws Exception {
    for (int i = 0; i < 600; i++) {
      JsonNode work = desk.json("/api/work").path("work");
      if (!work.isEmpty() && work.get(work.size() - 1).path("state").asText().equals(state)) {
        return work.get(work.size() - 1);
      }
      Thread.sleep(50);
    }
    throw new AssertionError("never " + state + ": " + desk.json("/api/work"));
  }

  private List<Path> copies() throws IOException {
    try (Stream<Path> files = Files.walk(folder.resolve("recordings"))) {
      return files.filter(f -> Files.isRegularFile(f) && !f.endsWith("in.lock")).toList();
    }
  }

  @Test
  void aRecordingIsCopiedQueuedAndStudied() throws Exception {
    HttpResponse<String> taken =
        upload("../../etc/..\\Low \"tide\" <1>.wav", Files.readAllBytes(song));
    assertThat(taken.statusCode()).isEqualTo(202);
    assertThat(TestDesk.parse(taken).path("name").asText()).isEqualTo("Low _tide_ _1_.wav");
    onlyOnce("working");
    gate.countDown();
    JsonNode done = onlyOnce("done");
    JsonNode page = desk.json("/api/songs/" + done.path("song").asLong());
    assertThat(page.path("song").path("title").asText()).isEqualTo("Low _tide_ _1_");
    assertThat(copies())
        .singleElement()
        .satisfies(f -> assertThat(f).startsWith(folder.resolve("recordings")));
    upload("again.wav", Files.readAllBytes(song));
    JsonNode again = onlyOnce("done");
    for (int i = 0; i < 200 && again.path("id").asInt() == done.path("id").asInt(); i++) {
      Thread.sleep(50);
      again = onlyOnce("done");
    }
    assertThat(again.path("song").asLong())
        .as("the same sound is the same song")
        .isEqualTo(done.path("song").asLong());
    assertThat(copies()).as("the earlier copy is not kept").hasSize(1);
  }

  @Test
  void whatIsNoSoundIsSaidInWords() throws Exception {
    gate.countDown();
    upload("notes.mp3", "no sound at all".getBytes(StandardCharsets.UTF_8));
    JsonNode failed = onlyOnce("failed");
    assertThat(failed.path("error").asText())
        .contains("notes.mp3")
        .doesNotContain(folder.toString());
    assertThat(copies()).isEmpty();
    String one = "/api/work/" + failed.path("id").asLong();
    assertThat(desk.send("DELETE", one, "").statusCode()).isEqualTo(204);
    assertThat(desk.json("/api/work").path("work")).isEmpty();
    assertThat(desk.send("DELETE", one, "").statusCode()).isEqualTo(404);
  }

  @Test
  void whatRunsAndWhatWaitsCanBeCancelled() throws Exception {
    upload("one.wav", Files.readAllBytes(song));
    onlyOnce("working");
    long waiting = TestDesk.parse(upload("two.wav", Files.readAllBytes(song))).path("id").asLong();
    desk.send("DELETE", "/api/work/" + waiting, "");
    onlyOnce("cancelled");
    JsonNode running = desk.json("/api/work").path("work").get(0);
    for (int i = 0; i < 600 && !running.path("stage").asText().equals("measuring"); i++) {
      Thread.sleep(50);
      running = desk.json("/api/work").path("work").get(0);
    }
    assertThat(running.path("share").asDouble()).isEqualTo(0.5);
    desk.send("DELETE", "/api/work/" + running.path("id").asLong(), "");
    for (int i = 0; i < 600 && !copies().isEmpty(); i++) {
      Thread.sleep(50);
    }
    assertThat(desk.json("/api/work").path("work").findValuesAsText("state"))
        .containsExactly("cancelled", "cancelled");
    assertThat(copies()).isEmpty();
    assertThat(desk.json("/api/songs").path("songs")).isEmpty();
  }

  @Test
  void whatWasLeftIsTakenUpAgain() throws Exception {
    upload("one.wav", Files.readAllBytes(song));
    onlyOnce("working");
    desk.close();
    desk = new TestDesk(folder, StandInStudy.in(folder));
    onlyOnce("done");
    assertThat(desk.json("/api/songs").path("songs").findValuesAsText("title"))
        .containsExactly("one");
  }

  @Test
  void whatClaimsToBeTooLargeIsRefusedAtOnce() throws Exception {
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), desk.server.port())) {
      socket.setSoTimeout(20_000);
      String request =
          "POST /api/uploads?name=x.wav HTTP/1.1\r\nHost: 127.0.0.1:%d\r\n%s: %s\r\nContent-Length: %d\r\nConnection: close\r\n\r\n"
              .formatted(desk.server.port(), Gate.TOKEN_HEADER, desk.token, 3L << 30);
      socket.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
      byte[] answer = socket.getInputStream().readNBytes(12);
      assertThat(new String(answer, StandardCharsets.US_ASCII)).isEqualTo("HTTP/1.1 413");
    }
    assertThat(desk.json("/api/work").path("work")).isEmpty();
  }

  @Test
  void aBodyMayNeitherGrowNorTakeWithoutEnd() {
    byte[] body = new byte[1000];
    assertThatThrownBy(
            () -> new UploadStream(new ByteArrayInputStream(body), 999, 60_000).readAllBytes())
        .isInstanceOf(ContentTooLargeResponse.class);
    assertThatThrownBy(
            () -> new UploadStream(new ByteArrayInputStream(body), 1000, -1).readAllBytes())
        .isInstanceOf(RequestTimeoutResponse.class);
    assertThat(new UploadStream(new ByteArrayInputStream(body), 1000, 60_000))
        .hasSameContentAs(new ByteArrayInputStream(body));
  }
}
