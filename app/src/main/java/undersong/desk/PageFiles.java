package undersong.desk;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;

/** The page itself: what the browser side's build left inside the program. */
final class PageFiles {
  private static final String ROOT = "/undersong/desk/";
  private static final Pattern NAME = Pattern.compile("[A-Za-z0-9_-][A-Za-z0-9._-]{0,127}");
  private static final Map<String, String> TYPES =
      Map.ofEntries(
          Map.entry("html", "text/html; charset=utf-8"),
          Map.entry("js", "text/javascript; charset=utf-8"),
          Map.entry("mjs", "text/javascript; charset=utf-8"),
          Map.entry("css", "text/css; charset=utf-8"),
          Map.entry("json", "application/json"),
          Map.entry("svg", "image/svg+xml"),
          Map.entry("png", "image/png"),
          Map.entry("ico", "image/x-icon"),
          Map.entry("woff2", "font/woff2"),
          Map.entry("wasm", "application/wasm"),
          Map.entry("txt", "text/plain; charset=utf-8"));

  private final Token token;

  PageFiles(Token token) {
    this.token = token;
  }

  void addTo(RoutesConfig routes) {
    routes.get("/", this::page);
    routes.get("/{file}", request -> file(request, request.pathParam("file")));
    routes.get("/assets/{file}", request -> file(request, "assets/", request.pathParam("file")));
    routes.get("/api/openapi.yaml", PageFiles::contract);
  }

  private void page(Context request) {
    String html =
        read("page/index.html")
            .map(bytes -> new String(bytes, StandardCharsets.UTF_8))
            .orElse(
                """
                <!doctype html><html lang="en"><head><title>Undersong</title></head><body>
                <p>This program was built without its page; the interface for scripts works \
                (<a href="/api/openapi.yaml">what it understands</a>). Build it with Node 20 or \
                newer to see the desk.</p></body></html>
                """);
    String withToken =
        html.replaceFirst(
            "(?i)<head>", "<head><meta name=\"undersong-token\" content=\"" + token.text() + "\">");
    request.contentType("text/html; charset=utf-8").result(withToken);
  }

  private static void file(Context request, String name) {
    file(request, "", name);
  }

  private static void file(Context request, String folder, String name) {
    int dot = name.lastIndexOf('.');
    String type = TYPES.get(name.substring(dot + 1).toLowerCase(Locale.ROOT));
    if (!NAME.matcher(name).matches() || dot < 0 || type == null || name.equals("index.html")) {
      throw new NotFoundResponse("There is no such file.");
    }
    byte[] bytes =
        read("page/" + folder + name)
            .orElseThrow(() -> new NotFoundResponse("There is no such file."));
    if (!folder.isEmpty()) {
      // Their names hold a hash of what is in them.
      request.header("Cache-Control", "private, max-age=31536000, immutable");
    }
    request.contentType(type).result(bytes);
  }

  private static void contract(Context request) {
    byte[] bytes =
        read("desk-api.yaml").orElseThrow(() -> new NotFoundResponse("It was not built in."));
    request.contentType("application/yaml").result(bytes);
  }

  private static Optional<byte[]> read(String path) {
    try (InputStream stream = PageFiles.class.getResourceAsStream(ROOT + path)) {
      return stream == null ? Optional.empty() : Optional.of(stream.readAllBytes());
    } catch (IOException broken) {
      throw new UncheckedIOException(broken);
    }
  }
}
