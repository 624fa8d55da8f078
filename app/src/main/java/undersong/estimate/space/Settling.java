package undersong.estimate.space;

import java.util.ArrayList;
import java.util.List;

/**
 * Lets sightings of the same place agree: a part stands still for a while, and one note's place is
 * read with noise. Each moves to the weighted mean of its neighbors in time, pitch and place, a few
 * times over (mean shift).
 */
final class Settling {
  private static final double REACH_SECONDS = 8;
  private static final double REACH_PLACE = 0.22;
  private static final double REACH_SEMITONES = 19;
  private static final int ROUNDS = 3;

  private Settling() {}

  /**
   * @param sightings by start
   */
  static List<Sighting> settled(List<Sighting> sightings) {
    int count = sightings.size();
    double[] place = sightings.stream().mapToDouble(Sighting::placement).toArray();
    for (int round = 0; round < ROUNDS; round++) {
      double[] next = new double[count];
      int first = 0;
      for (int i = 0; i < count; i++) {
        Sighting here = sightings.get(i);
        while (here.startSeconds() - sightings.get(first).startSeconds() > REACH_SECONDS) {
          first++;
        }
        double sum = 0;
        double mean = 0;
        for (int j = first; j < count; j++) {
          Sighting other = sightings.get(j);
          if (other.startSeconds() - here.startSeconds() > REACH_SECONDS) {
            break;
          }
          double away = Math.abs(place[i] - other.placement()) / REACH_PLACE;
          if (away < 1 && Math.abs(other.midiPitch() - here.midiPitch()) <= REACH_SEMITONES) {
            double weight = other.weight() * (1 - away * away);
            sum += weight;
            mean += weight * other.placement();
          }
        }
        next[i] = sum > 0 ? mean / sum : place[i];
      }
      place = next;
    }
    List<Sighting> settled = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      settled.add(sightings.get(i).at(place[i]));
    }
    return settled;
  }
}
