package undersong.bench.peers;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import undersong.bench.metrics.ChordCode;
import undersong.bench.metrics.HarteChord;
import undersong.bench.metrics.KeyLabel;
import undersong.bench.metrics.Timed;
import undersong.bench.render.Truth;

/**
 * The answers that need no ear: 120 beats a minute, always C major, one section, and (the best
 * constant there is) the song's own most frequent chord throughout.
 */
public final class Trivial implements Listener {
  @Override
  public String name() {
    return "trivial";
  }

  @Override
  public Heard hear(Path audio, Truth truth) {
    double end = truth.durationSeconds();
    Map<String, Double> seconds =
        truth.chords().stream()
            .collect(
                Collectors.groupingBy(
                    Timed::value, Collectors.summingDouble(Timed::lengthSeconds)));
    ChordCode chord =
        seconds.entrySet().stream()
            .max(Map.Entry.comparingByValue())
            .map(e -> HarteChord.parse(e.getKey()))
            .orElse(ChordCode.NONE);
    List<Double> beats =
        java.util.stream.IntStream.range(0, (int) (2 * end)).mapToObj(i -> i / 2.0).toList();
    return Heard.NOTHING
        .withPulse(new Heard.Pulse(beats, Optional.of(120.0)))
        .withTonality(
            new Heard.Tonality(
                List.of(new Timed<>(0, end, KeyLabel.major(0))),
                List.of(new Timed<>(0, end, chord))))
        .withSections(List.of(new Timed<>(0, end, "A")));
  }
}
