package undersong.estimate.beat;

import java.util.ArrayList;
import java.util.List;
import undersong.reading.Correction;
import undersong.reading.Corrections;

/** What the listener said about the pulse. */
final class BeatPins {
  /** Two beats placed closer than this cannot both stand: the newer does. */
  private static final double CLOSEST_SECONDS = 0.06;

  private static final double SLOWEST_BPM = 20;
  private static final double FASTEST_BPM = 480;

  private final double level;
  private final double[] beatSeconds;
  private final List<Correction> unplaced;

  private BeatPins(double level, double[] beatSeconds, List<Correction> unplaced) {
    this.level = level;
    this.beatSeconds = beatSeconds;
    this.unplaced = List.copyOf(unplaced);
  }

  /** How many times as many beats as were estimated. */
  double level() {
    return level;
  }

  /** Beats they placed, rising; copied. */
  double[] beatSeconds() {
    return beatSeconds.clone();
  }

  /** What does not fit. */
  List<Correction> unplaced() {
    return unplaced;
  }

  static BeatPins of(Corrections corrections, double durationSeconds, double estimatedBpm) {
    List<Correction> unplaced = new ArrayList<>();
    double level = 1;
    for (Correction.TempoLevel said : corrections.ofKind(Correction.TempoLevel.class)) {
      double bpm = estimatedBpm * level * said.factor();
      if (bpm >= SLOWEST_BPM && bpm <= FASTEST_BPM) {
        level *= said.factor();
      } else {
        unplaced.add(said);
      }
    }
    List<Correction.BeatAt> said = corrections.ofKind(Correction.BeatAt.class);
    List<Double> placed = new ArrayList<>();
    for (int i = said.size() - 1; i >= 0; i--) {
      double seconds = said.get(i).seconds();
      boolean outside = !(seconds >= 0 && seconds <= durationSeconds);
      if (outside || placed.stream().anyMatch(other -> tooClose(other, seconds))) {
        unplaced.add(said.get(i));
      } else {
        placed.add(seconds);
      }
    }
    double[] beats = placed.stream().mapToDouble(Double::doubleValue).sorted().toArray();
    return new BeatPins(level, beats, unplaced);
  }

  private static boolean tooClose(double one, double other) {
    return one != other && Math.abs(one - other) < CLOSEST_SECONDS;
  }

  /** Everything said, handed back: there is no pulse to say it against. */
  static List<Correction> all(Corrections corrections) {
    List<Correction> all = new ArrayList<>(corrections.ofKind(Correction.TempoLevel.class));
    all.addAll(corrections.ofKind(Correction.BeatAt.class));
    return all;
  }
}
