package undersong.desk;

import io.javalin.Javalin;
import io.javalin.compression.CompressionStrategy;
import io.javalin.config.JavalinConfig;
import java.nio.file.Path;
import java.util.Set;
import java.util.stream.Collectors;
import undersong.study.Study;

/**
 * Serves the desk on this machine's loopback address until it is closed.
 *
 * <p>Safe for many windows at once; what one says the others are told through {@link Events}.
 */
public final class DeskServer implements AutoCloseable {
  private static final String LOOPBACK = "127.0.0.1";
  private static final long LARGEST_JSON_BYTES = 4L << 20;
  private static final long IDLE_MILLISECONDS = 30_000;

  private final Javalin server;
  private final Events events;
  private final WorkRoutes work;
  private final Warming warming;

  private DeskServer(Javalin server, Events events, WorkRoutes work, Warming warming) {
    this.server = server;
    this.events = events;
    this.work = work;
    this.warming = warming;
  }

  /**
   * Starts serving; throws {@link undersong.work.Trouble.WrongUsage} where the port is taken.
   *
   * @param study stays the caller's to close, after the server
   * @param folder beside the shelf, where the token is kept
   * @param port 0 for any free one
   */
  public static DeskServer start(Study study, Path folder, int port) {
    Token token = Token.in(folder);
    Gate gate = new Gate(token);
    Events events = new Events(study);
    Preferences preferences = new Preferences(study, events);
    WorkRoutes work = new WorkRoutes(study, events);
    Pages pages = new Pages(study, preferences);
    Opening opening = new Opening(study, events);
    Warming warming = new Warming(study, preferences, opening, pages);
    Javalin server =
        Javalin.create(
            config -> {
              configure(config);
              gate.addTo(config.routes);
              Failures.addTo(config.routes);
              new PageFiles(token).addTo(config.routes);
              new SongRoutes(study, events, preferences, opening, pages, warming)
                  .addTo(config.routes);
              new TrendRoutes(study).addTo(config.routes);
              new SearchRoutes(study).addTo(config.routes);
              new LessonRoutes(study).addTo(config.routes);
              new PracticeRoutes(study).addTo(config.routes);
              new SoundRoutes(study).addTo(config.routes);
              new CorrectionRoutes(study, events, pages, warming).addTo(config.routes);
              new NoteRoutes(study, events, preferences, pages).addTo(config.routes);
              preferences.addTo(config.routes);
              new SpeakerRoutes(study, events, preferences).addTo(config.routes);
              work.addTo(config.routes);
              events.addTo(config.routes);
            });
    DeskServer desk = new DeskServer(server, events, work, warming);
    try {
      Failures.usable(port, () -> server.start(LOOPBACK, port));
    } catch (RuntimeException taken) {
      desk.close();
      throw taken;
    }
    gate.open(server.port());
    events.start();
    warming.begin();
    return desk;
  }

  private static void configure(JavalinConfig config) {
    config.startup.showJavalinBanner = false;
    config.startup.showOldJavalinVersionWarning = false;
    // Nothing leaves the machine, so packing would only cost time.
    config.http.compressionStrategy = CompressionStrategy.NONE;
    config.http.maxRequestSize = LARGEST_JSON_BYTES;
    config.jetty.modifyHttpConfiguration(
        http -> {
          http.setSendServerVersion(false);
          http.setIdleTimeout(IDLE_MILLISECONDS);
        });
  }

  /** Every path of the interface for page and scripts, as its description writes them. */
  Set<String> paths() {
    return server.unsafe.internalRouter.allHttpHandlers().stream()
        .map(route -> route.endpoint.path)
        .filter(path -> path.startsWith("/api/"))
        .collect(Collectors.toSet());
  }

  public int port() {
    return server.port();
  }

  /** What a browser is pointed to. */
  public String address() {
    return "http://" + LOOPBACK + ":" + port() + "/";
  }

  @Override
  public void close() {
    events.close();
    server.stop();
    work.close();
    warming.close();
  }
}
