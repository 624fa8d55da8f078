package undersong.estimate.voice;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * Decides which of all notes that may be a voice's own are its, one at a time: the likeliest way
 * from note to note, with a price for every phrase and for wide leaps, so that a lone note that
 * looks like a voice makes none.
 *
 * <p><b>Cost:</b> O(candidates), each looking back over a few dozen.
 */
final class FreePath {
  private static final double LEAST_LOG_ODDS = -3;
  private static final double SHORTEST_SECONDS = 0.06;
  private static final double PHRASE_SECONDS = 1;
  private static final int WIDEST_LEAP_SEMITONES = 12;
  private static final int LOOK_BACK = 80;
  private static final int FEWEST_NOTES = 3;

  private final FreeSettings settings;

  FreePath(FreeSettings settings) {
    this.settings = settings;
  }

  /**
   * @param all by onset
   * @return what is sung, by onset
   */
  List<Candidate> find(List<Candidate> all) {
    List<Candidate> kept =
        all.stream().filter(c -> c.logOdds() + settings.presentBias() > LEAST_LOG_ODDS).toList();
    double[] score = new double[kept.size()];
    int[] before = new int[kept.size()];
    double best = 0;
    int bestAt = -1;
    int done = 0;
    for (int i = 0; i < score.length; i++) {
      double start = kept.get(i).span().startSeconds();
      while (done < i && kept.get(done).span().startSeconds() <= start - SHORTEST_SECONDS) {
        if (score[done] > best) {
          best = score[done];
          bestAt = done;
        }
        done++;
      }
      double most = best - settings.phraseCost();
      before[i] = bestAt;
      for (int j = Math.max(0, done - LOOK_BACK); j < done; j++) {
        double way = score[j] - leap(kept.get(j), kept.get(i));
        if (start - kept.get(j).span().endSeconds() <= PHRASE_SECONDS && way > most) {
          most = way;
          before[i] = j;
        }
      }
      score[i] = most + kept.get(i).logOdds() + settings.presentBias();
    }
    return way(kept, score, before);
  }

  private double leap(Candidate from, Candidate to) {
    int semitones = Math.abs(to.midiPitch() - from.midiPitch());
    return settings.leapCost() * Math.min(WIDEST_LEAP_SEMITONES, semitones);
  }

  private static List<Candidate> way(List<Candidate> kept, double[] score, int[] before) {
    int at = -1;
    for (int i = 0; i < score.length; i++) {
      at = score[i] > (at < 0 ? 0 : score[at]) ? i : at;
    }
    List<Candidate> sung = new ArrayList<>();
    for (; at >= 0; at = before[at]) {
      sung.add(kept.get(at));
    }
    Collections.reverse(sung);
    return sung.size() < FEWEST_NOTES ? List.of() : sung;
  }
}
