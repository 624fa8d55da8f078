package undersong.desk;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.stream.Collectors;
import undersong.render.WavWriter;
import undersong.study.Study;

/** A desk of its own on a free port, with a client that talks to it. */
final class TestDesk implements AutoCloseable {
  static final double SONG_SECONDS = 24;

  private static final ObjectMapper JSON = new ObjectMapper();

  final Study study;
  final DeskServer server;
  final String token;
  final HttpClient client = HttpClient.newBuilder().connectTimeout(Duration.ofSeconds(20)).build();

  TestDesk(Path folder, Study study) throws IOException {
    this.study = study;
    this.server = DeskServer.start(study, folder, 0);
    this.token = Files.readString(folder.resolve("desk.token"));
  }

  /** A recording as long as the made-up reading: A4 on the left, silence on the right. */
  static Path song(Path folder, String name) throws IOException {
    return song(folder, name, 440);
  }

  static Path song(Path folder, String name, double hertz) throws IOException {
    Path file = folder.resolve(name);
    int frames = (int) (SONG_SECONDS * 44_100);
    try (WavWriter writer = new WavWriter(file, frames)) {
      for (int n = 0; n < frames; n++) {
        writer.write(0.5f * (float) Math.sin(2 * Math.PI * hertz * n / 44_100), 0);
      }
    }
    return file;
  }

  URI uri(String path) {
    return URI.create("http://127.0.0.1:" + server.port() + path);
  }

  HttpResponse<String> get(String path, String... headers) throws Exception {
    return client.send(request(path, headers).GET().build(), BodyHandlers.ofString());
  }

  HttpResponse<byte[]> bytes(String path, String... headers) throws Exception {
    return client.send(request(path, headers).GET().build(), BodyHandlers.ofByteArray());
  }

  JsonNode json(String path, String... headers) throws Exception {
    HttpResponse<String> answer = get(path, headers);
    if (answer.statusCode() != 200) {
      throw new AssertionError(path + ": " + answer.statusCode() + " " + answer.body());
    }
    return JSON.readTree(answer.body());
  }

  /** With the token. */
  HttpResponse<String> send(String method, String path, String body, String... headers)
      throws Exception {
    return client.send(
        request(path, headers)
            .header(Gate.TOKEN_HEADER, token)
            .method(method, BodyPublishers.ofString(body))
            .build(),
        BodyHandlers.ofString());
  }

  HttpResponse<String> post(String path, String body, String... headers) throws Exception {
    return send("POST", path, body, headers);
  }

  static JsonNode parse(HttpResponse<String> answer) throws IOException {
    return JSON.readTree(answer.body());
  }

  /** What a reader of this page says it holds. */
  static String held(JsonNode page) {
    return page.path("tags").properties().stream()
        .map(tag -> tag.getKey() + "=" + tag.getValue().asText())
        .collect(Collectors.joining(","));
  }

  /** A page completed by what was held of an earlier one. */
  static JsonNode joined(JsonNode before, JsonNode answer) {
    ObjectNode tags = ((ObjectNode) before.path("tags")).deepCopy();
    tags.setAll((ObjectNode) answer.path("tags"));
    ObjectNode joined = ((ObjectNode) before).deepCopy();
    joined.setAll((ObjectNode) answer);
    joined.set("tags", tags);
    return joined;
  }

  HttpRequest.Builder request(String path, String... headers) {
    HttpRequest.Builder request = HttpRequest.newBuilder(uri(path)).timeout(Duration.ofSeconds(60));
    return headers.length == 0 ? request : request.headers(headers);
  }

  @Override
  public void close() {
    server.close();
    study.close();
  }
}
