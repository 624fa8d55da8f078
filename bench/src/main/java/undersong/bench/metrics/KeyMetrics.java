package undersong.bench.metrics;

import java.util.List;

/** Agreement of keys, with part marks for near misses as the MIREX evaluation gives them. */
public final class KeyMetrics {
  private KeyMetrics() {}

  /**
   * 1 the same; 0.5 a fifth above (and below, where allowed) in the same mode; 0.3 relative major
   * or minor; 0.2 the same tonic in another mode; else 0.
   */
  public static double weighted(KeyLabel reference, KeyLabel estimated, boolean fifthBelowToo) {
    if (reference.equals(estimated)) {
      return 1;
    }
    if (reference.tonic() < 0 || estimated.tonic() < 0) {
      return 0;
    }
    int up = Math.floorMod(estimated.tonic() - reference.tonic(), 12);
    boolean sameMode = reference.mode().equals(estimated.mode());
    if (sameMode) {
      return up == 7 || (fifthBelowToo && up == 5) ? 0.5 : 0;
    }
    if (up == 0) {
      return 0.2;
    }
    boolean relative =
        (reference.mode().equals("major") && estimated.mode().equals("minor") && up == 9)
            || (reference.mode().equals("minor") && estimated.mode().equals("major") && up == 3);
    return relative ? 0.3 : 0;
  }

  /** The weighted agreement over time: how much of the reference's span earns which mark. */
  public static double weightedByTime(
      List<Timed<KeyLabel>> reference, List<Timed<KeyLabel>> estimated) {
    return Overlap.share(
        reference, estimated, KeyLabel.NONE, (r, e) -> weighted(r.family(), e.family(), true));
  }

  /** Share of the reference's span where tonic and the name of the mode are both right. */
  public static double sameNameByTime(
      List<Timed<KeyLabel>> reference, List<Timed<KeyLabel>> estimated) {
    return Overlap.share(reference, estimated, KeyLabel.NONE, (r, e) -> r.equals(e) ? 1 : 0);
  }
}
