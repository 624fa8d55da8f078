package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.net.ConnectException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.NetworkInterface;
import java.net.Socket;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.study.StandInStudy;
import undersong.work.Trouble;

/**
 * Who is let in. The rules are those of RFC 9110 (Host), RFC 6454 (Origin), W3C Fetch Metadata and
 * CSP.
 */
class GateTest {
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

  /** The client of the JDK sets Host itself; what another client claims is written by hand. */
  private String answerToHost(String host) throws IOException {
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), desk.server.port())) {
      socket.setSoTimeout(20_000);
      String request = "GET /api/songs HTTP/1.1\r\nHost: " + host + "\r\nConnection: close\r\n\r\n";
      socket.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
      return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  @Test
  void aNameThatIsNotOursIsRefused() throws Exception {
    int port = desk.server.port();
    assertThat(answerToHost("127.0.0.1:" + port)).startsWith("HTTP/1.1 200");
    assertThat(answerToHost("localhost:" + port)).startsWith("HTTP/1.1 200");
    assertThat(answerToHost("[::1]:" + port)).startsWith("HTTP/1.1 200");
    for (String host :
        new String[] {"example.org", "example.org:" + port, "127.0.0.1", "127.0.0.1:1"}) {
      assertThat(answerToHost(host)).startsWith("HTTP/1.1 403").doesNotContain("songs\":");
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"http://example.org", "https://127.0.0.1", "http://127.0.0.1:1", "null"})
  void aPageOfAnotherOriginIsRefused(String origin) throws Exception {
    assertThat(desk.get("/api/songs", "Origin", origin).statusCode()).isEqualTo(403);
    assertThat(desk.post("/api/songs/" + song + "/undo", "", "Origin", origin).statusCode())
        .isEqualTo(403);
  }

  @Test
  void theDesksOwnPageIsLetIn() throws Exception {
    String own = "http://127.0.0.1:" + desk.server.port();
    assertThat(desk.get("/api/songs", "Origin", own, "Sec-Fetch-Site", "same-origin").statusCode())
        .isEqualTo(200);
  }

  @ParameterizedTest
  @ValueSource(strings = {"cross-site", "same-site"})
  void soundsAndPicturesAreNotHandedToOtherSites(String site) throws Exception {
    String path = "/api/songs/" + song + "/sound";
    assertThat(desk.get(path, "Sec-Fetch-Site", site).statusCode()).isEqualTo(403);
    assertThat(desk.get("/", "Sec-Fetch-Site", site).statusCode())
        .as("a link to the page may be followed")
        .isEqualTo(200);
  }

  @Test
  void writingNeedsTheToken() throws Exception {
    String path = "/api/songs/" + song + "/corrections";
    String body = "{\"corrections\": [{\"kind\": \"TuningIs\", \"cents\": 5}]}";
    HttpResponse<String> without =
        desk.client.send(
            desk.request(path).POST(BodyPublishers.ofString(body)).build(),
            BodyHandlers.ofString());
    assertThat(without.statusCode()).isEqualTo(403);
    assertThat(TestDesk.parse(without).path("kind").asText()).isEqualTo("refused");
    HttpResponse<String> wrong =
        desk.client.send(
            desk.request(path, Gate.TOKEN_HEADER, "0".repeat(desk.token.length()))
                .POST(BodyPublishers.ofString(body))
                .build(),
            BodyHandlers.ofString());
    assertThat(wrong.statusCode()).isEqualTo(403);
    assertThat(desk.study.steps(song)).isEmpty();
    assertThat(desk.post(path, body).statusCode()).isEqualTo(200);
    assertThat(desk.study.steps(song)).hasSize(1);
  }

  @Test
  void thePageHoldsTheTokenAndScriptsFindItInAFileOfTheirOwn() throws Exception {
    assertThat(desk.get("/").body())
        .contains("<meta name=\"undersong-token\" content=\"" + desk.token + "\">");
    Path file = folder.resolve("desk.token");
    if (Files.getFileStore(file).supportsFileAttributeView("posix")) {
      assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
          .isEqualTo("rw-------");
    }
    desk.server.close();
    try (DeskServer again = DeskServer.start(desk.study, folder, 0)) {
      assertThat(again.port()).isPositive();
      assertThat(Files.readString(file))
          .as("windows that were open stay good")
          .isEqualTo(desk.token);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"/", "/api/songs", "/nothing", "/api/songs/99"})
  void everyAnswerCarriesTheRules(String path) throws Exception {
    var headers = desk.get(path).headers();
    String rules = headers.firstValue("Content-Security-Policy").orElseThrow();
    assertThat(rules.split("; "))
        .contains(
            "default-src 'none'",
            "script-src 'self' 'wasm-unsafe-eval'",
            "style-src 'self'",
            "connect-src 'self'",
            "base-uri 'none'",
            "form-action 'none'",
            "frame-ancestors 'none'");
    assertThat(rules).doesNotContain("unsafe-inline", "'unsafe-eval'", "http:", "https:", "*");
    assertThat(headers.firstValue("X-Content-Type-Options")).contains("nosniff");
    assertThat(headers.firstValue("Cross-Origin-Resource-Policy")).contains("same-origin");
    assertThat(headers.firstValue("Server")).isEmpty();
    assertThat(headers.map().keySet()).noneMatch(n -> n.startsWith("access-control"));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/assets/",
        "/assets/..%2f..%2fdesk-api.yaml",
        "/assets/%2e%2e%2f%2e%2e%2fdesk-api.yaml",
        "/..%2fdesk-api.yaml",
        "/desk-api.yaml",
        "/page/index.html",
        "/index.html",
        "/logback.xml",
        "/assets/..",
        "/api/",
        "/api/songs/..%2f..%2fetc%2fpasswd"
      })
  void nothingIsListedOrReachedByPath(String path) throws Exception {
    assertThat(desk.get(path).statusCode()).isIn(400, 404);
  }

  @Test
  void listensOnLoopbackOnly() throws Exception {
    Optional<InetAddress> elsewhere =
        NetworkInterface.networkInterfaces()
            .flatMap(NetworkInterface::inetAddresses)
            .filter(address -> !address.isLoopbackAddress() && !address.isLinkLocalAddress())
            .findFirst();
    assumeTrue(elsewhere.isPresent(), "this machine has no address but loopback");
    try (Socket socket = new Socket()) {
      var address = new InetSocketAddress(elsewhere.get(), desk.server.port());
      assertThatThrownBy(() -> socket.connect(address, 5000)).isInstanceOf(ConnectException.class);
    }
  }

  @Test
  void aTakenPortIsSaidInWords() {
    assertThatThrownBy(() -> DeskServer.start(desk.study, folder, desk.server.port()))
        .isInstanceOf(Trouble.WrongUsage.class)
        .hasMessageContaining(String.valueOf(desk.server.port()))
        .hasMessageContaining("--port 0");
  }

  @Test
  void aBodyThatIsTooLargeOrNoJsonIsRefused() throws Exception {
    String path = "/api/songs/" + song + "/corrections";
    assertThat(desk.post(path, "no json").statusCode()).isEqualTo(400);
    assertThat(desk.post(path, "[]").statusCode()).isEqualTo(400);
    assertThat(desk.post(path, " ".repeat(5 << 20)).statusCode()).isEqualTo(413);
    assertThat(desk.study.steps(song)).isEmpty();
  }
}
