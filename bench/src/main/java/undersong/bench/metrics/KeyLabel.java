package undersong.bench.metrics;

import java.util.Locale;

/**
 * A tonic and a mode as text, compared after enharmonic equivalence.
 *
 * @param tonic pitch class 0 to 11, C = 0; -1 = no key ("X")
 * @param mode lower case; "major" and "minor" have relatives, others only equal themselves
 */
public record KeyLabel(int tonic, String mode) {
  public static final KeyLabel NONE = new KeyLabel(-1, "");

  public KeyLabel {
    if (tonic < -1 || tonic > 11) {
      throw new IllegalArgumentException("Tonic %d must lie within -1 to 11.".formatted(tonic));
    }
    mode = mode.toLowerCase(Locale.ROOT);
  }

  public static KeyLabel major(int tonic) {
    return new KeyLabel(tonic, "major");
  }

  public static KeyLabel minor(int tonic) {
    return new KeyLabel(tonic, "minor");
  }

  /** Major or minor by its third, for metrics that know only these two. */
  public KeyLabel family() {
    return tonic < 0
        ? this
        : switch (mode) {
          case "minor", "natural minor", "harmonic minor", "melodic minor", "dorian", "phrygian" ->
              minor(tonic);
          default -> major(tonic);
        };
  }
}
