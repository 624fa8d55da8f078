package undersong.bench.desk;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;

/**
 * The program's own {@code desk} command in a process of its own, with the memory that the launcher
 * gives it.
 */
final class RunningDesk implements AutoCloseable {
  private static final String MEMORY = "-Xmx1400m";

  private final Process process;
  private final String address;

  private RunningDesk(Process process, String address) {
    this.process = process;
    this.address = address;
  }

  static RunningDesk on(Path shelf) throws IOException {
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                MEMORY,
                "-Djava.awt.headless=true",
                "-cp",
                System.getProperty("java.class.path"),
                "undersong.cli.Main",
                "desk",
                "--no-browser",
                "--port",
                "0",
                "--shelf",
                shelf.toString())
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    BufferedReader out =
        new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
    String line = out.readLine();
    if (line == null || !line.contains("http://")) {
      process.destroy();
      throw new IOException("The desk did not start; it said: " + line);
    }
    String from = line.substring(line.indexOf("http://"));
    return new RunningDesk(process, from.substring(0, from.indexOf(' ')));
  }

  URI at(String path) {
    return URI.create(address + path);
  }

  @Override
  public void close() throws IOException {
    process.destroy();
    try {
      if (!process.waitFor(20, TimeUnit.SECONDS)) {
        process.destroyForcibly();
      }
    } catch (InterruptedException told) {
      Thread.currentThread().interrupt();
    }
  }
}
