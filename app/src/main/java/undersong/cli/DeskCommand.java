package undersong.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import undersong.desk.DeskServer;
import undersong.study.Study;

@Command(
    name = "desk",
    mixinStandardHelpOptions = true,
    description = {
      "Opens the desk: songs to see, hear and correct in the browser, on this machine only.",
      "Runs until it is stopped (Ctrl-C)."
    })
final class DeskCommand implements Runnable {
  private static final int USUAL_PORT = 7464;

  @Spec private CommandSpec spec;
  @Mixin private ShelfOption shelf;

  @Option(
      names = "--port",
      paramLabel = "PORT",
      description = "Port on 127.0.0.1; 0 takes any free one. Usual: ${DEFAULT-VALUE}.")
  private int port = USUAL_PORT;

  @Option(names = "--no-browser", description = "Only print the address.")
  private boolean noBrowser;

  @Override
  public void run() {
    try (Study study = shelf.open()) {
      serve(study, shelf.place().folder(), port, !noBrowser, spec.commandLine().getOut());
    }
  }

  /** Serves until this program is told to end. */
  static void serve(Study study, Path folder, int port, boolean browser, PrintWriter out) {
    try (DeskServer desk = DeskServer.start(study, folder, port)) {
      out.println("The desk is at " + desk.address() + " (end it with Ctrl-C)");
      out.flush();
      if (browser) {
        openBrowser(desk.address());
      }
      Thread.currentThread().join();
    } catch (InterruptedException told) {
      Thread.currentThread().interrupt();
    }
  }

  /** Opens what the desktop opens addresses with; where there is no desktop, nothing happens. */
  private static void openBrowser(String address) {
    String system = System.getProperty("os.name").toLowerCase(Locale.ROOT);
    List<String> command;
    if (system.contains("mac")) {
      command = List.of("open", address);
    } else if (system.contains("windows")) {
      command = List.of("rundll32", "url.dll,FileProtocolHandler", address);
    } else if (System.getenv("DISPLAY") != null || System.getenv("WAYLAND_DISPLAY") != null) {
      command = List.of("xdg-open", address);
    } else {
      return;
    }
    try {
      new ProcessBuilder(command)
          .redirectErrorStream(true)
          .redirectOutput(ProcessBuilder.Redirect.DISCARD)
          .start();
    } catch (IOException noBrowser) {
      // The address stands on the screen; it can be typed.
    }
  }
}
