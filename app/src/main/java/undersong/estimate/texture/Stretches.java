package undersong.estimate.texture;

import java.util.ArrayList;
import java.util.List;
import undersong.time.Span;

/** Joins sounds that follow each other into stretches in which a layer goes on. */
final class Stretches {
  private Stretches() {}

  /** A sound and how sure it is. */
  record Sound(double startSeconds, double endSeconds, double probability) {}

  /** A stretch with the sounds it holds. */
  record Stretch(Span span, List<Sound> sounds) {
    double probability() {
      return sounds.stream().mapToDouble(Sound::probability).average().orElse(0);
    }
  }

  /**
   * @param sounds by start
   * @param longestGapSeconds that does not end a stretch
   * @param fewest sounds that make a stretch
   */
  static List<Stretch> of(List<Sound> sounds, double longestGapSeconds, int fewest) {
    List<Stretch> stretches = new ArrayList<>();
    List<Sound> run = new ArrayList<>();
    double end = 0;
    for (Sound sound : sounds) {
      if (!run.isEmpty() && sound.startSeconds() - end >= longestGapSeconds) {
        close(run, end, fewest, stretches);
        run = new ArrayList<>();
        end = 0;
      }
      run.add(sound);
      end = Math.max(end, sound.endSeconds());
    }
    close(run, end, fewest, stretches);
    return stretches;
  }

  private static void close(List<Sound> run, double end, int fewest, List<Stretch> stretches) {
    if (run.size() >= Math.max(1, fewest)) {
      stretches.add(new Stretch(new Span(run.get(0).startSeconds(), end), run));
    }
  }

  /**
   * The last of them as long as the song, where less is left of it than makes a rest: what stops so
   * late does not leave, it ends.
   *
   * @param stretches by start
   */
  static List<Stretch> toTheEnd(
      List<Stretch> stretches, double endSeconds, double longestGapSeconds) {
    int last = stretches.size() - 1;
    if (last < 0) {
      return stretches;
    }
    Stretch ending = stretches.get(last);
    double end = ending.span().endSeconds();
    if (end >= endSeconds || endSeconds - end >= longestGapSeconds) {
      return stretches;
    }
    List<Stretch> longer = new ArrayList<>(stretches);
    longer.set(
        last, new Stretch(new Span(ending.span().startSeconds(), endSeconds), ending.sounds()));
    return longer;
  }

  /**
   * Only the sounds with at least so many others about them: a lone one is more likely misheard
   * than a layer.
   */
  static List<Sound> inCompany(List<Sound> sounds, double reachSeconds, int others) {
    List<Sound> kept = new ArrayList<>();
    for (int i = 0; i < sounds.size(); i++) {
      int company = 0;
      for (int step : new int[] {-1, 1}) {
        for (int j = i + step; j >= 0 && j < sounds.size(); j += step) {
          if (Math.abs(sounds.get(j).startSeconds() - sounds.get(i).startSeconds())
              > reachSeconds) {
            break;
          }
          company++;
        }
      }
      if (company >= others) {
        kept.add(sounds.get(i));
      }
    }
    return kept;
  }
}
