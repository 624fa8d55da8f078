package undersong.bench.metrics;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/** The room section by section: its decay, how wet the mix is, and where that changes. Our own. */
public final class RoomMetrics {
  /**
   * A change that should be told: four times the least difference in clarity that is noticed (1 dB,
   * ISO 3382-1, from memory), since who plays changes with the section as well.
   */
  public static final double CHANGE_DB = 4;

  /** As far as a boundary may lie off to count as found. */
  private static final double BOUNDARY_SECONDS = 3;

  /** Below this nobody hears the difference; training and truth end there. */
  private static final double DRY_DB = -33;

  /** Rooms this wet should have their decay told. */
  private static final double AUDIBLE_DB = -20;

  private static final double WITHIN = 1.25;

  private RoomMetrics() {}

  /**
   * One section.
   *
   * @param decaySeconds band by band, 0 = not asked for or not told
   */
  public record Room(
      double startSeconds, double endSeconds, List<Double> decaySeconds, double wetToDryDb) {
    private double overlap(Room other) {
      return Math.min(endSeconds, other.endSeconds) - Math.max(startSeconds, other.startSeconds);
    }
  }

  /**
   * @param decibels positive: wetter than before
   */
  public record Change(double seconds, double decibels) {}

  /**
   * @param medianRatio by which a told decay is off, 1 = exact; NaN where none is told
   * @param within share of told decays within a quarter
   * @param told share of the bands of clearly wet sections whose decay is told
   * @param wetErrorDb mean absolute error; NaN where nothing is told
   */
  public record Score(double medianRatio, double within, double told, double wetErrorDb) {}

  /** Every true section against the told one that shares most of its time, at least half of it. */
  public static Score score(List<Room> reference, List<Room> estimated) {
    List<Double> octaves = new ArrayList<>();
    List<Double> wet = new ArrayList<>();
    int asked = 0;
    int answered = 0;
    for (Room truth : reference) {
      Optional<Room> told =
          estimated.stream()
              .max(Comparator.comparingDouble(truth::overlap))
              .filter(r -> 2 * truth.overlap(r) >= truth.endSeconds - truth.startSeconds);
      told.ifPresent(r -> wet.add(Math.abs(floored(r.wetToDryDb) - floored(truth.wetToDryDb))));
      for (int band = 0; band < truth.decaySeconds.size(); band++) {
        double real = truth.decaySeconds.get(band);
        double said = told.isPresent() ? told.get().decaySeconds.get(band) : 0;
        if (real > 0 && said > 0) {
          octaves.add(Math.abs(Math.log(said / real) / Math.log(2)));
        }
        if (real > 0 && truth.wetToDryDb >= AUDIBLE_DB) {
          asked++;
          answered += said > 0 ? 1 : 0;
        }
      }
    }
    octaves.sort(null);
    double limit = Math.log(WITHIN) / Math.log(2);
    return new Score(
        octaves.isEmpty() ? Double.NaN : Math.pow(2, octaves.get(octaves.size() / 2)),
        octaves.isEmpty()
            ? Double.NaN
            : (double) octaves.stream().filter(o -> o <= limit).count() / octaves.size(),
        asked == 0 ? Double.NaN : (double) answered / asked,
        wet.stream().mapToDouble(d -> d).average().orElse(Double.NaN));
  }

  private static double floored(double wetToDryDb) {
    return Math.max(DRY_DB, wetToDryDb);
  }

  /** Where a section is wetter or drier than the one before it by {@link #CHANGE_DB} or more. */
  public static List<Change> changes(List<Room> rooms) {
    List<Change> changes = new ArrayList<>();
    for (int i = 1; i < rooms.size(); i++) {
      double decibels = floored(rooms.get(i).wetToDryDb) - floored(rooms.get(i - 1).wetToDryDb);
      if (Math.abs(decibels) >= CHANGE_DB) {
        changes.add(new Change(rooms.get(i).startSeconds, decibels));
      }
    }
    return changes;
  }

  /** A change is found by one told in the same direction within 3 seconds. */
  public static PrecisionRecall found(List<Change> reference, List<Change> estimated) {
    return Matching.score(
        reference.size(),
        estimated.size(),
        (r, e) ->
            reference.get(r).decibels * estimated.get(e).decibels > 0
                && Math.abs(reference.get(r).seconds - estimated.get(e).seconds)
                    <= BOUNDARY_SECONDS);
  }
}
