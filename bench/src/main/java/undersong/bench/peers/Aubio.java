package undersong.bench.peers;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import undersong.bench.metrics.Statistics;
import undersong.bench.render.Tool;
import undersong.bench.render.Truth;

/** The beats of aubio's command-line tool {@code aubiotrack} (Debian package aubio-tools). */
public final class Aubio implements Listener {
  @Override
  public String name() {
    return "aubio";
  }

  @Override
  public Heard hear(Path audio, Truth truth) throws IOException {
    Path wave = Files.createTempFile("aubio", ".wav");
    try {
      Tool.run("ffmpeg", "-y", "-v", "error", "-i", audio.toString(), "-ac", "1", wave.toString());
      long before = System.nanoTime();
      List<Double> beats =
          Tool.run("aubiotrack", wave.toString())
              .lines()
              .filter(l -> l.matches("[0-9.]+"))
              .map(Double::valueOf)
              .toList();
      double seconds = (System.nanoTime() - before) / 1e9;
      return Heard.NOTHING
          .withPulse(
              new Heard.Pulse(
                  beats, beats.size() < 2 ? Optional.empty() : Optional.of(medianBpm(beats))))
          .withCosts(Map.of("speed.realTimeFactor", seconds / truth.durationSeconds()));
    } finally {
      Files.deleteIfExists(wave);
    }
  }

  static double medianBpm(List<Double> beats) {
    double[] periods = new double[beats.size() - 1];
    for (int i = 0; i < periods.length; i++) {
      periods[i] = beats.get(i + 1) - beats.get(i);
    }
    return 60 / Statistics.median(periods);
  }
}
