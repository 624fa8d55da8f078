package undersong.bench.peers;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import undersong.bench.metrics.PitchCurve;
import undersong.bench.metrics.Statistics;
import undersong.bench.metrics.SungNote;
import undersong.bench.render.Tool;
import undersong.bench.render.Truth;

/**
 * aubio's command-line tools (Debian package aubio-tools): {@code aubiotrack} for beats, {@code
 * aubiopitch} for the melody's curve, {@code aubionotes} for its notes, with their own settings;
 * for the bass {@code aubioonset} and {@code aubiopitch} in the sound below 120 Hz, with windows
 * long enough for it: from onset to onset a note of the median pitch. They expect one voice, so the
 * mix of a band asks too much of their pitch: a fair peer on solo voices only.
 */
public final class Aubio implements Listener {
  @Override
  public String name() {
    return "aubio";
  }

  @Override
  public Heard hear(Path audio, Truth truth) throws IOException {
    Path wave = Files.createTempFile("aubio", ".wav");
    Path low = Files.createTempFile("aubio-low", ".wav");
    try {
      convert(audio, wave, "anull");
      convert(audio, low, "lowpass=f=120,lowpass=f=120");
      long before = System.nanoTime();
      List<Double> beats = beats(wave);
      double seconds = (System.nanoTime() - before) / 1e9;
      return Heard.NOTHING
          .withPulse(
              new Heard.Pulse(
                  beats, beats.size() < 2 ? Optional.empty() : Optional.of(medianBpm(beats))))
          .withLines(new Heard.Lines(bass(low), notes(wave), curve(wave)))
          .withCosts(Map.of("speed.realTimeFactor", seconds / truth.durationSeconds()));
    } finally {
      Files.deleteIfExists(wave);
      Files.deleteIfExists(low);
    }
  }

  private static void convert(Path audio, Path wave, String filter) throws IOException {
    Tool.run(
        "ffmpeg",
        "-y",
        "-v",
        "error",
        "-i",
        audio.toString(),
        "-ac",
        "1",
        "-af",
        filter,
        wave.toString());
  }

  private static List<Double> beats(Path wave) throws IOException {
    return rows(1, "aubiotrack", wave.toString()).stream().map(r -> r[0]).toList();
  }

  private static List<SungNote> notes(Path wave) throws IOException {
    List<SungNote> notes = new ArrayList<>();
    for (double[] row : rows(3, "aubionotes", wave.toString())) {
      if (row[2] > row[1]) {
        notes.add(new SungNote(row[1], row[2], row[0]));
      }
    }
    return notes;
  }

  private static List<SungNote> bass(Path low) throws IOException {
    List<double[]> onsets =
        rows(1, "aubioonset", "-O", "specflux", "-B", "2048", "-H", "256", low.toString());
    List<double[]> pitches = rows(2, "aubiopitch", "-B", "4096", "-H", "256", low.toString());
    List<SungNote> notes = new ArrayList<>();
    for (int i = 0; i + 1 < onsets.size(); i++) {
      double start = onsets.get(i)[0];
      double end = onsets.get(i + 1)[0];
      double[] between =
          pitches.stream()
              .filter(p -> p[0] >= start && p[0] < end && p[1] > 0)
              .mapToDouble(p -> 69 + 12 * Math.log(p[1] / 440) / Math.log(2))
              .toArray();
      if (between.length > 0 && end > start) {
        notes.add(new SungNote(start, end, Statistics.median(between)));
      }
    }
    return notes;
  }

  private static PitchCurve curve(Path wave) throws IOException {
    List<double[]> rows = rows(2, "aubiopitch", wave.toString());
    return new PitchCurve(
        rows.stream().mapToDouble(r -> r[0]).toArray(),
        rows.stream().mapToDouble(r -> r[1]).toArray());
  }

  /** Printed lines that hold as many numbers; others are words of the tool. */
  private static List<double[]> rows(int numbers, String... command) throws IOException {
    String line = "\\s*-?[0-9.e+-]+" + "\\s+-?[0-9.e+-]+".repeat(numbers - 1) + "\\s*";
    return Tool.run(command)
        .lines()
        .filter(l -> l.matches(line))
        .map(l -> Arrays.stream(l.strip().split("\\s+")).mapToDouble(Double::parseDouble).toArray())
        .toList();
  }

  static double medianBpm(List<Double> beats) {
    double[] periods = new double[beats.size() - 1];
    for (int i = 0; i < periods.length; i++) {
      periods[i] = beats.get(i + 1) - beats.get(i);
    }
    return 60 / Statistics.median(periods);
  }
}
