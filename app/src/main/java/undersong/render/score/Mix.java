package undersong.render.score;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Where a part stands and what is done to it.
 *
 * @param values by name; what is not named has its default of {@link #DEFAULTS}
 */
public record Mix(Map<String, Double> values) {
  /**
   * level dB; pan -1 to 1; sway: notes alternate between -sway and sway; double: a second take on
   * the other side; reverb: share sent to the room; echo and throw: lag in beats, with the fall per
   * copy in echo-fall; duck: dip in dB at every kick; sweep-from and sweep-to: corner in Hz at the
   * section's beginning and end; loose: wandering of onsets in ms; untuned: wandering of pitch in
   * cents; drive: bending of the wave.
   */
  static final Map<String, Double> DEFAULTS =
      Map.ofEntries(
          Map.entry("level", 0.0),
          Map.entry("pan", 0.0),
          Map.entry("sway", 0.0),
          Map.entry("double", 0.0),
          Map.entry("reverb", 0.0),
          Map.entry("echo", 0.0),
          Map.entry("throw", 0.0),
          Map.entry("echo-fall", 8.0),
          Map.entry("duck", 0.0),
          Map.entry("sweep-from", 0.0),
          Map.entry("sweep-to", 0.0),
          Map.entry("loose", 0.0),
          Map.entry("untuned", 0.0),
          Map.entry("drive", 0.0));

  public Mix {
    values = Map.copyOf(values);
  }

  static Set<String> names() {
    return DEFAULTS.keySet();
  }

  public double get(String name) {
    Double fallback = DEFAULTS.get(name);
    if (fallback == null) {
      throw new IllegalArgumentException(
          "No mix setting is called \"%s\"; there are %s.".formatted(name, List.copyOf(names())));
    }
    return values.getOrDefault(name, fallback);
  }

  /** This mix with the other's settings laid over it. */
  Mix with(Mix other) {
    Map<String, Double> all = new HashMap<>(values);
    all.putAll(other.values);
    return new Mix(all);
  }
}
