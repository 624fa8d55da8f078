package undersong.bench.lesson;

import java.util.Locale;

/** Counts of notes written down, over songs. */
final class Tally {
  private int songs;
  private int notes;
  private int begun;
  private int held;
  private int heldValues;
  private int values;
  private int bars;

  /**
   * @param played notes it has
   */
  void song(int played) {
    songs++;
    notes += played;
  }

  /** A note whose beginning and pitch are right. */
  void begun(boolean valueRight, boolean barRight) {
    begun++;
    values += valueRight ? 1 : 0;
    bars += barRight ? 1 : 0;
  }

  /** A note whose end is right as well. */
  void held(boolean valueRight) {
    held++;
    heldValues += valueRight ? 1 : 0;
  }

  /** A row of the table. */
  String row(String set, String given) {
    return String.format(
        Locale.ROOT,
        "| %s | %s | %d | %d | %.3f | %.3f | %.3f | %.3f | %.3f | %.3f |%n",
        set,
        given,
        songs,
        notes,
        share(begun, notes),
        share(held, notes),
        share(heldValues, held),
        share(bars, begun),
        share(values, begun),
        share(values, notes));
  }

  private static double share(int part, int whole) {
    return whole == 0 ? Double.NaN : (double) part / whole;
  }
}
