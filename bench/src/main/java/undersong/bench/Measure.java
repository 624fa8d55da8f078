package undersong.bench;

import java.io.IOException;
import java.nio.file.Path;
import undersong.bench.render.Charts;
import undersong.bench.render.Renderer;
import undersong.bench.render.Song;
import undersong.bench.render.SongList;

/** Entry point of {@code ./measure}. */
public final class Measure {
  private Measure() {}

  public static void main(String[] arguments) throws IOException {
    Path cache = Path.of(System.getenv().getOrDefault("MEASURE_CACHE", ".measure-cache"));
    String set = arguments[0];
    Path font =
        Path.of(
            set.equals("tune")
                ? "/usr/share/sounds/sf2/TimGM6mb.sf2"
                : "/usr/share/sounds/sf3/MuseScore_General.sf3");
    Renderer renderer = new Renderer(cache.resolve(set.equals("tune") ? "tune" : "bench"), font);
    Charts charts = new Charts();
    for (Song song : SongList.of(set)) {
      long before = System.nanoTime();
      Renderer.Pair pair = renderer.render(song, charts.find(song.chartId()));
      System.out.printf(
          "%s: %.1f s of music in %.1f s%n",
          song.chartId(),
          pair.clean().truth().durationSeconds(),
          (System.nanoTime() - before) / 1e9);
    }
  }
}
