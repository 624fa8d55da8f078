package undersong.bench.render;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import undersong.bench.data.OpenData;

/** Runs the general-purpose command-line tools that the bench leans on. */
public final class Tool {
  private Tool() {}

  /** Whether a program of this name can be started. */
  public static boolean isThere(String name) {
    for (String folder : System.getenv("PATH").split(java.io.File.pathSeparator)) {
      if (java.nio.file.Files.isExecutable(java.nio.file.Path.of(folder, name))) {
        return true;
      }
    }
    return false;
  }

  /** Runs a command and gives back all it printed; throws where it is missing or fails. */
  public static String run(String... command) throws IOException {
    if (!isThere(command[0])) {
      throw new OpenData.Missing(
          "%s is missing; install the Debian package that holds it (fluidsynth, aubio-tools,"
                  .formatted(command[0])
              + " ffmpeg).");
    }
    Process process = new ProcessBuilder(List.of(command)).redirectErrorStream(true).start();
    process.getOutputStream().close();
    String printed = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    try {
      int code = process.waitFor();
      if (code != 0) {
        throw new IOException(
            "%s ended with code %d: %s"
                .formatted(String.join(" ", command), code, lastLines(printed)));
      }
    } catch (InterruptedException stopped) {
      Thread.currentThread().interrupt();
      throw new IOException("Stopped while waiting for " + command[0], stopped);
    }
    return printed;
  }

  /** What a tool said at the end, on one line. */
  private static String lastLines(String printed) {
    List<String> lines = printed.lines().filter(l -> !l.isBlank()).toList();
    return String.join("; ", lines.subList(Math.max(0, lines.size() - 3), lines.size()));
  }
}
