package undersong.bench.metrics;

import java.util.List;
import java.util.Optional;

/** Placement between left and right. Our own measures; the field has none. */
public final class SpaceMetrics {
  private static final double COMMON_SHARE = 0.5;
  private static final double ASIDE = 0.4;

  private SpaceMetrics() {}

  /** A true note and where it stands, -1 left to 1 right. */
  public record Sound(SungNote note, double placement) {}

  /**
   * What an estimate says stands somewhere.
   *
   * @param bottomHz the pitch lies at or above it, and below {@code topHz}
   */
  public record Placed(
      double startSeconds, double endSeconds, double bottomHz, double topHz, double placement) {}

  /**
   * @param found of the true notes, the share for which something of that pitch was placed while it
   *     sounded; NaN where there are none
   * @param meanError of those, mean absolute error of the panning index; NaN where none was found
   */
  public record Placement(double found, double meanError) {}

  /**
   * Each true note against the estimate that shares most of its time among those whose band holds
   * its pitch and that share at least half of the shorter one.
   */
  public static Placement placement(List<Sound> reference, List<Placed> estimated) {
    int found = 0;
    double errors = 0;
    for (Sound sound : reference) {
      Optional<Placed> guess = nearest(sound.note, estimated);
      if (guess.isPresent()) {
        found++;
        errors += Math.abs(guess.get().placement - sound.placement);
      }
    }
    return new Placement(
        reference.isEmpty() ? Double.NaN : (double) found / reference.size(),
        found == 0 ? Double.NaN : errors / found);
  }

  /**
   * Short lines told on their side. A line is told where at least half of its notes were placed at
   * 0.4 or more to either side, most of them on one: right on its own side, wrong on the other.
   *
   * @param lines each the notes of one short line, all on one side
   */
  public static PrecisionRecall sides(List<List<Sound>> lines, List<Placed> estimated) {
    int told = 0;
    int right = 0;
    for (List<Sound> line : lines) {
      int left = 0;
      int onRight = 0;
      for (Sound sound : line) {
        double guess = nearest(sound.note, estimated).map(Placed::placement).orElse(0.0);
        left += guess <= -ASIDE ? 1 : 0;
        onRight += guess >= ASIDE ? 1 : 0;
      }
      if (2 * (left + onRight) >= line.size() && left != onRight) {
        told++;
        right += onRight > left == line.get(0).placement > 0 ? 1 : 0;
      }
    }
    return PrecisionRecall.of(right, lines.size(), told);
  }

  private static Optional<Placed> nearest(SungNote note, List<Placed> estimated) {
    double hertz = 440 * Math.pow(2, (note.midiPitch() - 69) / 12);
    Optional<Placed> best = Optional.empty();
    double bestShare = 0;
    for (Placed guess : estimated) {
      double common =
          Math.min(note.endSeconds(), guess.endSeconds)
              - Math.max(note.startSeconds(), guess.startSeconds);
      double length = guess.endSeconds - guess.startSeconds;
      boolean pitched = hertz >= guess.bottomHz && hertz < guess.topHz;
      if (pitched && common >= COMMON_SHARE * Math.min(length, note.lengthSeconds())) {
        double share = common / (length + note.lengthSeconds() - common);
        if (share > bestShare) {
          best = Optional.of(guess);
          bestShare = share;
        }
      }
    }
    return best;
  }
}
