package undersong.estimate.texture;

import java.util.ArrayList;
import java.util.List;
import undersong.estimate.texture.Stretches.Sound;
import undersong.estimate.texture.Stretches.Stretch;
import undersong.time.Span;

/**
 * Whether a layer that is not heard rests: the ear itself must have heard less of it there than
 * where it plays, the clearer the shorter the rest. Sounds are left out for many reasons (too weak,
 * too lone, too long), which are no reason to say that a player left.
 */
final class Rests {
  private static final double STEP_BARS = 0.5;
  private static final double GOES_ON = 0.7;
  private static final double BEGINS = 0.4;
  private static final double SHORTEST_SECONDS = 0.3;
  private static final double LEAST_RATIO = 0.01;

  private final Activity activity;
  private final RestSettings.Limit limit;
  private final double barSeconds;
  private final double durationSeconds;

  /** How much of a layer the ear hears through a span, in any unit. */
  interface Activity {
    double through(double startSeconds, double endSeconds);
  }

  Rests(Activity activity, RestSettings.Limit limit, double barSeconds, double durationSeconds) {
    this.activity = activity;
    this.limit = limit;
    this.barSeconds = barSeconds;
    this.durationSeconds = durationSeconds;
  }

  /** The stretches joined over rests that are none. */
  List<Stretch> joined(List<Stretch> stretches) {
    double usual = usual(stretches);
    if (usual <= 0) {
      return stretches;
    }
    List<Stretch> joined = new ArrayList<>();
    for (Stretch stretch : stretches) {
      int last = joined.size() - 1;
      if (last >= 0 && !rests(endOf(joined.get(last)), stretch.span().startSeconds(), usual)) {
        joined.set(last, together(joined.get(last), stretch));
      } else {
        joined.add(stretch);
      }
    }
    return joined;
  }

  /** The stretches, longer where the layer plays on. */
  List<Stretch> longer(List<Stretch> stretches) {
    double usual = usual(stretches);
    return usual <= 0
        ? stretches
        : merged(stretches.stream().map(stretch -> longer(stretch, stretches, usual)).toList());
  }

  /** Two that were both made longer into the gap between them are one. */
  private static List<Stretch> merged(List<Stretch> stretches) {
    List<Stretch> merged = new ArrayList<>();
    for (Stretch stretch : stretches) {
      int last = merged.size() - 1;
      if (last >= 0 && stretch.span().startSeconds() <= endOf(merged.get(last))) {
        merged.set(last, together(merged.get(last), stretch));
      } else {
        merged.add(stretch);
      }
    }
    return merged;
  }

  private static Stretch together(Stretch first, Stretch second) {
    List<Sound> sounds = new ArrayList<>(first.sounds());
    sounds.addAll(second.sounds());
    double end = Math.max(endOf(first), endOf(second));
    return new Stretch(new Span(first.span().startSeconds(), end), sounds);
  }

  /** The last stretch as long as the song, and the first from its start, where nothing rests. */
  List<Stretch> toTheEdges(List<Stretch> stretches, double startSeconds, double endSeconds) {
    double usual = usual(stretches);
    if (usual <= 0) {
      return stretches;
    }
    List<Stretch> longer = new ArrayList<>(stretches);
    Stretch first = longer.get(0);
    double start = first.span().startSeconds();
    if (start > startSeconds && !rests(startSeconds, start, usual)) {
      longer.set(0, new Stretch(new Span(startSeconds, endOf(first)), first.sounds()));
    }
    int at = longer.size() - 1;
    Stretch last = longer.get(at);
    if (endOf(last) < endSeconds && !rests(endOf(last), endSeconds, usual)) {
      longer.set(at, new Stretch(new Span(last.span().startSeconds(), endSeconds), last.sounds()));
    }
    return longer;
  }

  private static double endOf(Stretch stretch) {
    return stretch.span().endSeconds();
  }

  private double usual(List<Stretch> stretches) {
    double sum = 0;
    double seconds = 0;
    for (Stretch stretch : stretches) {
      double length = stretch.span().lengthSeconds();
      if (length >= SHORTEST_SECONDS) {
        sum += length * activity.through(stretch.span().startSeconds(), endOf(stretch));
        seconds += length;
      }
    }
    return seconds > 0 ? sum / seconds : 0;
  }

  private boolean rests(double start, double end, double usual) {
    double share = Math.max(LEAST_RATIO, activity.through(start, end) / usual);
    return (end - start) / barSeconds * Math.log(limit.share() / share) >= limit.leastEvidence();
  }

  /** Before and behind, as far as it is heard as usual; half a bar at a time. */
  private Stretch longer(Stretch stretch, List<Stretch> all, double usual) {
    double step = STEP_BARS * barSeconds;
    double first = stretch.span().startSeconds();
    double last = endOf(stretch);
    double start = first;
    double end = last;
    for (double from = first - step; from >= 0 && isFree(from, first, all); from -= step) {
      if (goesOn(from, first, usual) && begins(from, from + step, usual)) {
        start = from;
      }
    }
    for (double to = last + step; to <= durationSeconds && isFree(last, to, all); to += step) {
      if (goesOn(last, to, usual) && begins(to - step, to, usual)) {
        end = to;
      }
    }
    return new Stretch(new Span(start, end), stretch.sounds());
  }

  private boolean goesOn(double start, double end, double usual) {
    return activity.through(start, end) >= GOES_ON * usual;
  }

  private boolean begins(double start, double end, double usual) {
    return activity.through(start, end) >= BEGINS * usual;
  }

  private static boolean isFree(double start, double end, List<Stretch> all) {
    return all.stream()
        .noneMatch(s -> s.span().startSeconds() < end - 1e-6 && endOf(s) > start + 1e-6);
  }
}
