package undersong.desk;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HandlerType;
import java.util.Set;

/**
 * Lets in what comes from this machine's own pages and scripts. A page of another site, open in the
 * same browser, could otherwise reach a server on loopback: by a request of its own (its Origin or
 * its fetch site tell), or by a name of its own that it lets point to 127.0.0.1 (the Host tells).
 */
final class Gate {
  static final String TOKEN_HEADER = "X-Undersong-Token";

  private static final String RULES_FOR_THE_PAGE =
      String.join(
          "; ",
          "default-src 'none'",
          // Slower playing runs as WebAssembly in an audio worklet, which is loaded from a blob.
          "script-src 'self' 'wasm-unsafe-eval'",
          "script-src-elem 'self' blob:",
          "worker-src 'self' blob:",
          "style-src 'self'",
          "img-src 'self' data: blob:",
          "media-src 'self' blob:",
          "font-src 'self'",
          "connect-src 'self'",
          "base-uri 'none'",
          "form-action 'none'",
          "frame-ancestors 'none'");

  private static final Set<HandlerType> READING = Set.of(HandlerType.GET, HandlerType.HEAD);

  private final Token token;
  private volatile Set<String> hosts = Set.of();

  Gate(Token token) {
    this.token = token;
  }

  /** Says where the server listens; until then nothing is let in. */
  void open(int port) {
    hosts = Set.of("127.0.0.1:" + port, "localhost:" + port, "[::1]:" + port);
  }

  void addTo(RoutesConfig routes) {
    routes.before(this::check);
  }

  private void check(Context request) {
    request.header("Content-Security-Policy", RULES_FOR_THE_PAGE);
    request.header("X-Content-Type-Options", "nosniff");
    request.header("Referrer-Policy", "no-referrer");
    request.header("Cross-Origin-Resource-Policy", "same-origin");
    request.header("Cross-Origin-Opener-Policy", "same-origin");
    request.header("X-Frame-Options", "DENY");
    request.header("Cache-Control", "no-store");
    String host = request.header("Host");
    if (host == null || !hosts.contains(host)) {
      throw new Refused(
          "Host \"%s\" is not this desk; it must be one of %s. Maybe a page elsewhere sent this."
              .formatted(host, hosts));
    }
    String origin = request.header("Origin");
    if (origin != null && !origin.equals("http://" + host)) {
      throw new Refused(
          "Origin \"%s\" is not the desk's own page (http://%s).".formatted(origin, host));
    }
    String site = request.header("Sec-Fetch-Site");
    boolean ownPage = site == null || site.equals("same-origin") || site.equals("none");
    if (!ownPage && request.path().startsWith("/api/")) {
      throw new Refused("A page of another site asks for this (%s).".formatted(site));
    }
    String word = request.header(TOKEN_HEADER);
    if (!READING.contains(request.method()) && (word == null || !token.is(word))) {
      throw new Refused(
          """
          Writing needs the header %s with the desk's token; this request has %s. The page gets it \
          from the server; scripts find it in the file desk.token beside the shelf."""
              .formatted(TOKEN_HEADER, word == null ? "none" : "another one"));
    }
  }

  /** Somebody asks who may not. */
  static final class Refused extends RuntimeException {
    Refused(String message) {
      super(message);
    }
  }
}
