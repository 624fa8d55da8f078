package undersong.audio;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import undersong.work.Cancellation;
import undersong.work.Trouble;

/**
 * One run of a media tool in a child process. A crash on a crafted file ends the child, not this
 * program; a child that falls silent is ended after {@link #STALL_SECONDS}.
 *
 * <p>What the child prints to its error stream is kept up to {@link #KEPT_CHARS}; the rest of the
 * beginning is dropped.
 */
final class MediaProcess implements AutoCloseable {
  static final int STALL_SECONDS = 60;
  private static final int KEPT_CHARS = 20_000;

  private final Process process;
  private final InputStream output;
  private final Thread errorReader;
  private final Thread watch;
  private final StringBuilder errors = new StringBuilder();
  private volatile long readingSinceNanos;
  private volatile boolean reading;
  private volatile boolean stalled;

  private MediaProcess(Process process) {
    this.process = process;
    this.output = process.getInputStream();
    this.errorReader = daemon("media errors", this::readErrors);
    this.watch = daemon("media watch", this::watch);
  }

  static MediaProcess start(MediaTool tool, List<String> arguments) {
    List<String> command = new ArrayList<>();
    command.add(tool.path());
    command.addAll(arguments);
    ProcessBuilder builder = new ProcessBuilder(command);
    // With this variable set, the tool would write a report file into the working folder.
    builder.environment().remove("FFREPORT");
    try {
      Process process = builder.start();
      process.getOutputStream().close();
      return new MediaProcess(process);
    } catch (IOException e) {
      throw new UncheckedIOException(
          "The decoder %s could not be started; maybe its unpacking folder may not run programs."
              .formatted(command.get(0)),
          e);
    }
  }

  /**
   * Fills {@code bytes} from the child's output as far as it goes.
   *
   * @return bytes read; fewer than the array's length only at the end
   */
  int read(byte[] bytes) {
    int filled = 0;
    int count;
    while (filled < bytes.length && (count = readSome(bytes, filled)) > 0) {
      filled += count;
    }
    return filled;
  }

  /** All that the child prints, as text; for short answers that may come slowly. */
  String readText(Cancellation cancellation) {
    ByteArrayOutputStream text = new ByteArrayOutputStream();
    byte[] bytes = new byte[8192];
    int count;
    while ((count = readSome(bytes, 0)) > 0) {
      cancellation.check();
      text.write(bytes, 0, count);
    }
    return text.toString(StandardCharsets.UTF_8);
  }

  private int readSome(byte[] bytes, int from) {
    readingSinceNanos = System.nanoTime();
    reading = true;
    try {
      return output.read(bytes, from, bytes.length - from);
    } catch (IOException e) {
      return 0; // the stream was closed under us: the child was ended
    } finally {
      reading = false;
    }
  }

  /** Waits for the end and gives the exit status. */
  int awaitEnd(Cancellation cancellation) {
    try {
      while (!process.waitFor(20, TimeUnit.MILLISECONDS)) {
        cancellation.check();
      }
      errorReader.join(2_000);
      return process.exitValue();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new Trouble.Cancelled();
    }
  }

  /** Whether the child was ended because it gave nothing for too long. */
  boolean stalled() {
    return stalled;
  }

  String errors() {
    synchronized (errors) {
      return errors.toString();
    }
  }

  @Override
  public void close() {
    process.destroyForcibly();
    watch.interrupt();
  }

  private void readErrors() {
    byte[] bytes = new byte[4096];
    try (InputStream stream = process.getErrorStream()) {
      int count;
      while ((count = stream.read(bytes)) > 0) {
        synchronized (errors) {
          errors.append(new String(bytes, 0, count, StandardCharsets.UTF_8));
          if (errors.length() > KEPT_CHARS) {
            errors.delete(0, errors.length() - KEPT_CHARS);
          }
        }
      }
    } catch (IOException e) {
      // The child was ended; what it said so far is kept.
    }
  }

  private void watch() {
    try {
      while (!process.waitFor(1, TimeUnit.SECONDS)) {
        long waited = System.nanoTime() - readingSinceNanos;
        if (reading && waited > TimeUnit.SECONDS.toNanos(STALL_SECONDS)) {
          stalled = true;
          process.destroyForcibly();
        }
      }
    } catch (InterruptedException e) {
      process.destroyForcibly();
    }
  }

  private static Thread daemon(String name, Runnable work) {
    Thread thread = new Thread(work, name);
    thread.setDaemon(true);
    thread.start();
    return thread;
  }
}
