package undersong.technique.form;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import undersong.technique.SectionSound;

/**
 * In what one stretch exceeds another: loudness, density, noise, register, width. What cannot be
 * compared exceeds in nothing.
 */
final class Gains {
  /** One respect, by how much, and from how much on it counts. */
  record Gain(Respect respect, double value, double limit) {
    boolean counts() {
      return value >= limit;
    }
  }

  /** In what a stretch of music can be more than another. */
  enum Respect {
    LOUDER("LU"),
    DENSER("times"),
    NOISIER("times"),
    HIGHER("semitones"),
    WIDER("dB");

    private final String unit;

    Respect(String unit) {
      this.unit = unit;
    }

    String unit() {
      return unit;
    }

    String key() {
      return name().toLowerCase(java.util.Locale.ROOT);
    }
  }

  /** From how much on a difference counts in each respect. */
  record Limits(
      double loudnessLu,
      double densityFactor,
      double noiseFactor,
      double semitones,
      double widthDb) {}

  private Gains() {}

  static List<Gain> of(SectionSound more, SectionSound less, Limits limits) {
    List<Gain> gains = new ArrayList<>();
    difference(gains, Respect.LOUDER, more.lufs(), less.lufs(), limits.loudnessLu());
    ratio(
        gains, Respect.DENSER, more.onsetsPerBeat(), less.onsetsPerBeat(), limits.densityFactor());
    ratio(gains, Respect.NOISIER, more.noisiness(), less.noisiness(), limits.noiseFactor());
    difference(gains, Respect.HIGHER, more.register(), less.register(), limits.semitones());
    difference(gains, Respect.WIDER, more.sideToMidDb(), less.sideToMidDb(), limits.widthDb());
    return gains;
  }

  private static void difference(
      List<Gain> gains, Respect respect, OptionalDouble more, OptionalDouble less, double limit) {
    if (more.isPresent() && less.isPresent()) {
      gains.add(new Gain(respect, more.getAsDouble() - less.getAsDouble(), limit));
    }
  }

  private static void ratio(
      List<Gain> gains, Respect respect, OptionalDouble more, OptionalDouble less, double limit) {
    if (more.isPresent() && less.isPresent() && less.getAsDouble() > 1e-9) {
      gains.add(new Gain(respect, more.getAsDouble() / less.getAsDouble(), limit));
    }
  }
}
