package undersong.technique.harmony;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import undersong.technique.ChordPath;
import undersong.technique.ChordStep;
import undersong.technique.Pulse;
import undersong.technique.SongSection;

/** Stretches of a section in which two to eight chords go round. */
final class Loops {
  private static final int SHORTEST = 2;
  private static final int LONGEST = 8;

  /** Rounds must agree in length to this share. */
  private static final double LENGTH_SHARE = 0.15;

  private Loops() {}

  /**
   * @param first place on the chord path
   * @param last place on the chord path, inclusive
   * @param period chords in one round
   */
  record Loop(int first, int last, int period, SongSection section) {
    double rounds() {
      return (last - first + 1.0) / period;
    }

    boolean contains(int step) {
      return step >= first && step <= last;
    }
  }

  /** In each section the loop that covers most of it, if one goes round at least so often. */
  static List<Loop> of(
      ChordPath path, List<SongSection> sections, Pulse pulse, double leastRounds) {
    List<Loop> loops = new ArrayList<>();
    for (SongSection section : sections) {
      Loop longest = null;
      List<Integer> within = path.within(section.span());
      for (int period = SHORTEST; period <= LONGEST && !within.isEmpty(); period++) {
        int first = within.get(0);
        int end = within.get(within.size() - 1);
        Loop loop = longest(path, first, end, period, section, pulse);
        boolean goesRound =
            loop != null && loop.rounds() >= leastRounds && hasTwoChords(path, loop);
        // A longer period must cover clearly more than a shorter one.
        if (goesRound
            && (longest == null
                || loop.last() - loop.first() > 1.3 * (longest.last() - longest.first()))) {
          longest = loop;
        }
      }
      if (longest != null) {
        loops.add(longest);
      }
    }
    return loops;
  }

  /** One chord whose sevenths come and go is no loop. */
  private static boolean hasTwoChords(ChordPath path, Loop loop) {
    return new HashSet<>(turned(path, loop)).size() > 1;
  }

  private static Loop longest(
      ChordPath path, int first, int end, int period, SongSection section, Pulse pulse) {
    Loop best = null;
    int i = first;
    while (i + period <= end) {
      int k = i;
      while (k + period <= end
          && path.goesOn(k + period - 1)
          && same(path.get(k), path.get(k + period))
          && evenRounds(path, i, k, period, pulse)) {
        k++;
      }
      if (k > i && (best == null || k - 1 + period - i > best.last() - best.first())) {
        best = new Loop(i, k - 1 + period, period, section);
      }
      i = Math.max(k, i + 1);
    }
    return best;
  }

  private static boolean evenRounds(ChordPath path, int first, int k, int period, Pulse pulse) {
    if (!pulse.isThere()) {
      return false;
    }
    double round = roundBeats(path, first, period, pulse);
    return Math.abs(roundBeats(path, k, period, pulse) - round) <= LENGTH_SHARE * round;
  }

  private static double roundBeats(ChordPath path, int from, int period, Pulse pulse) {
    return pulse.beats(
        path.get(from).span().startSeconds(), path.get(from + period).span().startSeconds());
  }

  private static boolean same(ChordStep one, ChordStep other) {
    return token(one) == token(other);
  }

  /** Root above the tonic and kind of third. */
  static int token(ChordStep step) {
    return 3 * step.root() + (step.major() ? 1 : step.minor() ? 2 : 0);
  }

  /** One round's tokens, turned so that equal loops give equal lists wherever they begin. */
  static List<Integer> turned(ChordPath path, Loop loop) {
    List<Integer> round = new ArrayList<>();
    for (int i = loop.first(); i < loop.first() + loop.period(); i++) {
      round.add(token(path.get(i)));
    }
    List<Integer> least = round;
    for (int turn = 1; turn < round.size(); turn++) {
      List<Integer> turned = new ArrayList<>(round.subList(turn, round.size()));
      turned.addAll(round.subList(0, turn));
      least = compare(turned, least) < 0 ? turned : least;
    }
    return least;
  }

  private static int compare(List<Integer> one, List<Integer> other) {
    for (int i = 0; i < one.size(); i++) {
      int difference = Integer.compare(one.get(i), other.get(i));
      if (difference != 0) {
        return difference;
      }
    }
    return 0;
  }
}
