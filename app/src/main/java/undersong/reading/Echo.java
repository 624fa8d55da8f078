package undersong.reading;

import java.util.List;
import java.util.Optional;
import undersong.time.Span;

/**
 * A sound and what comes back of it.
 *
 * @param span from the first sound that is repeated to the last repeat of the last one
 * @param lagSeconds from a sound to its first repeat
 * @param lagWanderSeconds how much the lag wanders (standard deviation); near 0 for a delay
 * @param pitchWanderCents how much the repeat's pitch wanders against the source's
 * @param noteValue of the lag at the song's tempo, where one fits
 * @param sourcePlacement panning index of what is repeated
 * @param repeats first to last that could be heard
 * @param probability that there is a repeat of this kind
 */
public record Echo(
    Kind kind,
    Span span,
    double lagSeconds,
    double lagWanderSeconds,
    double pitchWanderCents,
    Optional<NoteValue> noteValue,
    double sourcePlacement,
    List<Repeat> repeats,
    double probability) {

  public enum Kind {
    /** A true delay: a copy at a fixed distance. */
    DELAY,
    /** The line is performed again, not copied: lag and pitch wander. */
    RESUNG,
    /** A second take of the same line a few milliseconds apart. */
    DOUBLE
  }

  /**
   * @param levelDb against the source
   * @param placement its panning index
   * @param brightnessDb how much more (less: negative) its highs have changed than its level
   */
  public record Repeat(double levelDb, double placement, double brightnessDb) {}

  public Echo {
    if (!(lagSeconds > 0)) {
      throw new IllegalArgumentException("Lag of %s s must be positive.".formatted(lagSeconds));
    }
    repeats = List.copyOf(repeats);
    Probability.check(probability);
  }

  /** Level lost from repeat to repeat; with a single one, from the source to it. */
  public double decayDbPerRepeat() {
    if (repeats.isEmpty()) {
      return 0;
    }
    int last = repeats.size() - 1;
    return last == 0
        ? -repeats.get(0).levelDb()
        : (repeats.get(0).levelDb() - repeats.get(last).levelDb()) / last;
  }

  /** Whether successive repeats stand on opposite sides. */
  public boolean alternatesSides() {
    if (repeats.size() < 2) {
      return false;
    }
    for (int i = 1; i < Math.min(3, repeats.size()); i++) {
      double here = repeats.get(i).placement();
      double before = repeats.get(i - 1).placement();
      if (here * before >= 0 || Math.abs(here) < 0.2 || Math.abs(before) < 0.2) {
        return false;
      }
    }
    return true;
  }

  Object essence() {
    return List.of(
        kind,
        span,
        lagSeconds,
        lagWanderSeconds,
        pitchWanderCents,
        noteValue,
        sourcePlacement,
        repeats);
  }
}
