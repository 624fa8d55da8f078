package undersong.estimate.motif;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import undersong.reading.Motif.Likeness;
import undersong.theory.Key;

/**
 * Holds one cell against another: the same, moved, moved along the scale, refitted, or different.
 */
final class Comparison {
  private final Setting setting;
  private final MotifSettings settings;

  Comparison(Setting setting, MotifSettings settings) {
    this.setting = setting;
    this.settings = settings;
  }

  /**
   * @param semitones from first to other
   * @param share of notes that agree
   */
  record Found(Likeness likeness, int semitones, Optional<Integer> steps, double share) {}

  Optional<Found> of(Cell first, Cell other) {
    double all = (first.size() + other.size()) / 2.0;
    int common = Long.bitCount(first.rhythm() & other.rhythm());
    if (common < settings.fewestNotes() || common < settings.likePitches() * all) {
      return Optional.empty();
    }
    Map<Integer, Integer> moves = new HashMap<>();
    Map<Integer, Integer> steps = new HashMap<>();
    Optional<Key> key = setting.keyAt(first.startSeconds());
    Optional<Key> otherKey = setting.keyAt(other.startSeconds());
    int together = 0;
    double moved = 0;
    int sameWay = 0;
    int lastFirst = -1;
    int lastOther = -1;
    int i = 0;
    int j = 0;
    while (i < first.size() && j < other.size()) {
      if (first.offset(i) != other.offset(j)) {
        if (first.offset(i) < other.offset(j)) {
          i++;
        } else {
          j++;
        }
        continue;
      }
      int move = other.pitch(j) - first.pitch(i);
      moves.merge(move, 1, Integer::sum);
      moved += Math.abs(move);
      if (key.isPresent() && otherKey.isPresent()) {
        int step =
            Setting.step(other.pitch(j), otherKey.get()) - Setting.step(first.pitch(i), key.get());
        steps.merge(step, 1, Integer::sum);
      }
      if (lastFirst >= 0) {
        int up = Integer.signum(first.pitch(i) - first.pitch(lastFirst));
        sameWay += up == Integer.signum(other.pitch(j) - other.pitch(lastOther)) ? 1 : 0;
      }
      lastFirst = i++;
      lastOther = j++;
      together++;
    }
    return told(first, other, moves, steps, all)
        .or(refitted(first, other, together / all, moved / together, sameWay, together));
  }

  private Optional<Found> told(
      Cell first,
      Cell other,
      Map<Integer, Integer> moves,
      Map<Integer, Integer> steps,
      double all) {
    Map.Entry<Integer, Integer> move = most(moves);
    double share = move.getValue() / all;
    Optional<Integer> root = rootMove(first, other);
    if (share >= settings.likePitches()) {
      int semitones = move.getKey();
      Likeness likeness =
          semitones == 0
              ? Likeness.EXACT
              : root.filter(r -> r == Math.floorMod(semitones, 12)).isPresent()
                  ? Likeness.FOLLOWS_ROOT
                  : Likeness.SCALE_STEP;
      return Optional.of(new Found(likeness, semitones, Optional.empty(), share));
    }
    if (!steps.isEmpty()) {
      Map.Entry<Integer, Integer> step = most(steps);
      if (step.getKey() != 0 && step.getValue() / all >= settings.likePitches()) {
        int semitones = other.pitch(0) - first.pitch(0);
        boolean withRoot =
            root.filter(r -> r == Math.floorMod(semitones, 12) && r != 0).isPresent();
        return Optional.of(
            new Found(
                withRoot ? Likeness.FOLLOWS_ROOT : Likeness.SCALE_STEP,
                semitones,
                Optional.of(step.getKey()),
                step.getValue() / all));
      }
    }
    return Optional.empty();
  }

  /** The same rhythm and ups and downs, every note a little moved, and another chord below. */
  private java.util.function.Supplier<Optional<Found>> refitted(
      Cell first, Cell other, double rhythm, double moved, int sameWay, int together) {
    return () ->
        rhythm >= settings.likeRhythm()
                && moved > 0
                && moved <= settings.furthestRefitSemitones()
                && sameWay >= 0.7 * (together - 1)
                && !setting
                    .chordAt(first.startSeconds())
                    .equals(setting.chordAt(other.startSeconds()))
            ? Optional.of(
                new Found(
                    Likeness.ADAPTED,
                    other.pitch(0) - first.pitch(0),
                    Optional.empty(),
                    0.8 * rhythm))
            : Optional.empty();
  }

  private Optional<Integer> rootMove(Cell first, Cell other) {
    return setting
        .chordAt(first.startSeconds())
        .flatMap(
            from ->
                setting
                    .chordAt(other.startSeconds())
                    .map(
                        to ->
                            Math.floorMod(to.root().pitchClass() - from.root().pitchClass(), 12)));
  }

  private static Map.Entry<Integer, Integer> most(Map<Integer, Integer> counts) {
    return counts.entrySet().stream()
        .max(
            Map.Entry.<Integer, Integer>comparingByValue()
                .thenComparing(e -> -Math.abs(e.getKey()))
                .thenComparing(Map.Entry.comparingByKey()))
        .orElseThrow();
  }
}
