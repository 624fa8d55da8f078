package undersong.estimate.voice;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;

/**
 * Decides along the notes of the lead where a second voice sings with it and what: the likeliest
 * path (Viterbi) through "nobody", "somebody, but not heard here" and each candidate, so that one
 * chord note that happens to begin with the lead makes no voice, and a phrase sung along is
 * followed through its weak notes.
 */
final class SecondPath {
  private static final int WIDEST_CHANGE_SEMITONES = 4;

  private final VoiceSettings settings;

  SecondPath(VoiceSettings settings) {
    this.settings = settings;
  }

  /** A state at one note: without candidate nobody sings, or somebody who was not heard. */
  private record State(boolean sings, Optional<Candidate> candidate, double score, int before) {}

  /**
   * @param beside candidates beside each note of the lead, in order
   * @return what is sung beside each note; empty where nothing is
   */
  List<Optional<Candidate>> find(List<List<Candidate>> beside) {
    List<List<State>> columns = new ArrayList<>();
    List<State> previous = List.of(new State(false, Optional.empty(), 0, 0));
    for (List<Candidate> candidates : beside) {
      List<State> column = new ArrayList<>();
      column.add(arrive(previous, false, Optional.empty(), 0));
      column.add(arrive(previous, true, Optional.empty(), -settings.missedCost()));
      for (Candidate candidate : candidates) {
        double gain = candidate.logOdds() + settings.presentBias();
        column.add(arrive(previous, true, Optional.of(candidate), gain));
      }
      columns.add(column);
      previous = column;
    }
    List<Optional<Candidate>> path = new ArrayList<>();
    int at = best(previous);
    for (int i = columns.size() - 1; i >= 0; i--) {
      State state = columns.get(i).get(at);
      path.add(state.candidate());
      at = state.before();
    }
    Collections.reverse(path);
    return path;
  }

  private State arrive(
      List<State> previous, boolean sings, Optional<Candidate> candidate, double gain) {
    int best = 0;
    double most = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < previous.size(); i++) {
      State from = previous.get(i);
      double score = from.score() - (from.sings() == sings ? 0 : settings.changeCost());
      if (candidate.isPresent() && from.candidate().isPresent()) {
        int change = candidate.get().aboveLead() - from.candidate().get().aboveLead();
        score -= settings.intervalCost() * Math.min(WIDEST_CHANGE_SEMITONES, Math.abs(change));
      }
      if (score > most) {
        most = score;
        best = i;
      }
    }
    return new State(sings, candidate, most + gain, best);
  }

  private static int best(List<State> states) {
    int best = 0;
    for (int i = 1; i < states.size(); i++) {
      best = states.get(i).score() > states.get(best).score() ? i : best;
    }
    return best;
  }
}
