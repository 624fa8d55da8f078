package undersong.feature;

import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import undersong.work.Trouble;

/**
 * Cuts a stream of samples at 22,050 Hz into overlapping runs, has their spectra computed by a few
 * threads, and hands them on in order, on the thread that pushes. At most {@link #IN_FLIGHT} runs
 * wait, so that memory stays the same however long the recording is.
 */
final class SpectraPipeline implements AutoCloseable {
  private static final int CHUNK_FRAMES = 250;
  private static final int REACH = EarSpectraMaker.LONGEST_WINDOW / 2;
  private static final int CHUNK_SAMPLES = CHUNK_FRAMES * EarSpectraMaker.HOP_SAMPLES;
  private static final int IN_FLIGHT = 4;

  private final EarSpectraSink sink;
  private final ExecutorService[] threads;
  private final EarSpectraMaker[] makers;
  private final Deque<Future<EarSpectra>> waiting = new ArrayDeque<>();
  private final float[] window = new float[CHUNK_SAMPLES + 2 * REACH];
  private int filled = REACH; // silence before the first sample
  private int chunks;
  private long samples;

  SpectraPipeline(int workers, EarSpectraSink sink) {
    this.sink = sink;
    this.threads = new ExecutorService[workers];
    this.makers = new EarSpectraMaker[workers];
    for (int w = 0; w < workers; w++) {
      makers[w] = new EarSpectraMaker();
      threads[w] =
          Executors.newSingleThreadExecutor(
              work -> {
                Thread thread = new Thread(work, "spectra");
                thread.setDaemon(true);
                return thread;
              });
    }
  }

  void push(float[] scaled, int count) {
    int at = 0;
    while (at < count) {
      int run = Math.min(count - at, window.length - filled);
      System.arraycopy(scaled, at, window, filled, run);
      filled += run;
      at += run;
      if (filled == window.length) {
        cut(CHUNK_FRAMES);
      }
    }
    samples += count;
  }

  /** Ends the stream, silence following it, and hands on all that is left. */
  void finish() {
    long frames = samples / EarSpectraMaker.HOP_SAMPLES;
    while ((long) chunks * CHUNK_FRAMES < frames) {
      Arrays.fill(window, filled, window.length, 0);
      filled = window.length;
      cut((int) Math.min(CHUNK_FRAMES, frames - (long) chunks * CHUNK_FRAMES));
    }
    while (!waiting.isEmpty()) {
      handOn();
    }
  }

  private void cut(int frames) {
    float[] run = window.clone();
    int firstFrame = chunks * CHUNK_FRAMES;
    EarSpectraMaker maker = makers[chunks % makers.length];
    waiting.add(
        threads[chunks % threads.length].submit(() -> maker.make(run, REACH, firstFrame, frames)));
    chunks++;
    System.arraycopy(window, CHUNK_SAMPLES, window, 0, 2 * REACH);
    filled = 2 * REACH;
    while (waiting.size() > IN_FLIGHT) {
      handOn();
    }
  }

  private void handOn() {
    try {
      sink.accept(waiting.remove().get());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new Trouble.Cancelled();
    } catch (ExecutionException e) {
      throw new IllegalStateException("Computing spectra failed.", e.getCause());
    }
  }

  @Override
  public void close() {
    for (ExecutorService thread : threads) {
      thread.shutdownNow();
    }
  }
}
