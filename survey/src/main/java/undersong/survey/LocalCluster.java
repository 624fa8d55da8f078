package undersong.survey;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.ProcessBuilder.Redirect;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** A standalone cluster on this machine's own address, of this program's class path. */
final class LocalCluster implements AutoCloseable {
  private static final String HERE = "127.0.0.1";
  private static final int PATIENCE_SECONDS = 60;

  private final List<Process> processes = new ArrayList<>();
  private final Path home;
  private final Path options;
  private final String address;

  /**
   * @param workers each with one core
   * @param home for logs and the workers' own files
   * @param options the file of JDK options that Spark needs
   */
  LocalCluster(int workers, String memory, Path home, Path options) {
    this.home = home;
    this.options = options;
    try {
      // Spark looks for its libraries there; ours come by the class path.
      Files.createDirectories(home.resolve("jars"));
      int port = freePort();
      this.address = "spark://%s:%d".formatted(HERE, port);
      String part = "org.apache.spark.deploy.";
      start("master", part + "master.Master", "--port", "" + port);
      awaitOpen(port);
      for (int worker = 1; worker <= workers; worker++) {
        String name = "worker-" + worker;
        String own = Files.createDirectories(home.resolve(name)).toString();
        start(name, part + "worker.Worker", "--cores", "1", "--memory", memory, "-d", own, address);
      }
    } catch (IOException broken) {
      close();
      throw new UncheckedIOException("The cluster could not be started in " + home, broken);
    } catch (RuntimeException broken) {
      close();
      throw broken;
    }
  }

  /** What {@code --master} takes. */
  String address() {
    return address;
  }

  private void start(String name, String mainClass, String... arguments) throws IOException {
    List<String> command =
        new ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "@" + options,
                "-Xmx512m",
                "-cp",
                SurveySession.classPath(),
                mainClass,
                "--host",
                HERE,
                "--webui-port",
                "0"));
    command.addAll(List.of(arguments));
    ProcessBuilder builder = new ProcessBuilder(command);
    builder.environment().put("SPARK_HOME", home.toString());
    builder.environment().put("SPARK_SCALA_VERSION", "2.13"); // else guessed from SPARK_HOME
    builder.environment().put("SPARK_LOCAL_IP", HERE);
    builder.redirectErrorStream(true);
    builder.redirectOutput(Redirect.to(home.resolve(name + ".log").toFile()));
    processes.add(builder.start());
  }

  private static int freePort() throws IOException {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      return socket.getLocalPort();
    }
  }

  private void awaitOpen(int port) throws IOException {
    for (int tenth = 0; tenth < 10 * PATIENCE_SECONDS; tenth++) {
      try {
        new Socket(InetAddress.getLoopbackAddress(), port).close();
        return;
      } catch (IOException notYet) {
        if (!processes.get(0).isAlive()) {
          break;
        }
        pause();
      }
    }
    throw new IOException(
        "No master answers; it says: " + Files.readString(home.resolve("master.log")));
  }

  private static void pause() throws IOException {
    try {
      Thread.sleep(100);
    } catch (InterruptedException told) {
      Thread.currentThread().interrupt();
      throw new IOException("Stopped while waiting for the cluster", told);
    }
  }

  @Override
  public void close() {
    // Workers end their executors when they are asked to stop.
    processes.forEach(Process::destroy);
    for (Process process : processes) {
      try {
        process.onExit().get(20, java.util.concurrent.TimeUnit.SECONDS);
      } catch (InterruptedException told) {
        Thread.currentThread().interrupt();
        process.destroyForcibly();
      } catch (java.util.concurrent.ExecutionException
          | java.util.concurrent.TimeoutException late) {
        process.destroyForcibly();
      }
    }
  }
}
