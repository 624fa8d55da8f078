package undersong.bench.desk;

import java.io.IOException;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse.BodyHandlers;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * Many listeners at one desk: each opens the song's page, plays on from a place of their own (a
 * chunk of sound is asked for when the one before would have been played), and opens a bar for
 * close listening now and then, as the page does.
 */
final class ClassAtOnce {
  private static final int CHUNK_BYTES = 4 << 17;
  private static final int HEADER_BYTES = 44;
  private static final double CHUNK_SECONDS = (1 << 17) / 44_100.0;
  private static final int EVERY_CHUNKS = 3;

  private final RunningDesk desk;
  private final long song;
  private final List<Double> pages = Collections.synchronizedList(new ArrayList<>());
  private final List<Double> chunks = Collections.synchronizedList(new ArrayList<>());
  private final List<Double> pictures = Collections.synchronizedList(new ArrayList<>());
  private final AtomicInteger failures = new AtomicInteger();

  private ClassAtOnce(RunningDesk desk, long song) {
    this.desk = desk;
    this.song = song;
  }

  record Outcome(List<Double> pageMs, List<Double> chunkMs, List<Double> pictureMs, int failures) {}

  static Outcome listen(RunningDesk desk, long song, int listeners, int chunksEach)
      throws InterruptedException {
    ClassAtOnce all = new ClassAtOnce(desk, song);
    ExecutorService threads = Executors.newFixedThreadPool(listeners);
    try {
      List<Callable<Void>> work = new ArrayList<>();
      for (int i = 0; i < listeners; i++) {
        int place = i;
        work.add(() -> all.listener(place, chunksEach));
      }
      for (var done : threads.invokeAll(work)) {
        done.get();
      }
    } catch (ExecutionException inside) {
      throw new IllegalStateException("A listener ended early.", inside.getCause());
    } finally {
      threads.shutdownNow();
    }
    return new Outcome(all.pages, all.chunks, all.pictures, all.failures.get());
  }

  private Void listener(int place, int chunksEach) throws InterruptedException {
    HttpClient client = HttpClient.newHttpClient();
    ask(client, "api/songs/" + song, "", pages);
    long begun = System.nanoTime();
    for (int i = 0; i < chunksEach; i++) {
      long first = HEADER_BYTES + (long) (2 * place + i) * CHUNK_BYTES;
      String range = "bytes=%d-%d".formatted(first, first + CHUNK_BYTES - 1);
      ask(client, "api/songs/%d/sound".formatted(song), range, chunks);
      if (i % EVERY_CHUNKS == EVERY_CHUNKS - 1) {
        ask(client, "api/songs/" + song, "", pages);
        ask(
            client,
            "api/songs/%d/picture?fromSeconds=%d&toSeconds=%d&columns=900"
                .formatted(song, 3 * (place + i), 3 * (place + i) + 3),
            "",
            pictures);
      }
      double ahead = (i + 1) * CHUNK_SECONDS - (System.nanoTime() - begun) / 1e9;
      Thread.sleep(Math.max(0, Math.round(1000 * ahead)));
    }
    return null;
  }

  private void ask(HttpClient client, String path, String range, List<Double> times)
      throws InterruptedException {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(desk.at(path)).timeout(Duration.ofSeconds(30));
    if (!range.isEmpty()) {
      request.header("Range", range);
    }
    long before = System.nanoTime();
    try {
      var answer = client.send(request.build(), BodyHandlers.ofByteArray());
      if (answer.statusCode() / 100 == 2 && answer.body().length > 0) {
        times.add((System.nanoTime() - before) / 1e6);
      } else {
        failures.incrementAndGet();
      }
    } catch (IOException broken) {
      failures.incrementAndGet();
    }
  }
}
