package undersong.reading;

import java.util.List;

/**
 * The facets of a reading and what each is derived from. A facet can only name facets declared
 * above it, so the compiler keeps the graph free of cycles.
 *
 * @param <V> the type of its value
 */
public final class Facet<V extends FacetValue> {
  /** How far the recording's pitch lies from A = 440 Hz. */
  public static final Facet<Tuning> TUNING = new Facet<>("tuning", Tuning.class);

  /** Beats, swing and tempo. */
  public static final Facet<Beats> BEATS = new Facet<>("beats", Beats.class);

  /** Bars. Decided by drums, melody and form, never by the chords that the bars will judge. */
  public static final Facet<Meter> METER = new Facet<>("meter", Meter.class, value(BEATS));

  /** Which stretches are the same music. */
  public static final Facet<Form> FORM =
      new Facet<>("form", Form.class, value(TUNING), value(BEATS), value(METER));

  /** Bass notes. */
  public static final Facet<Bass> BASS =
      new Facet<>("bass", Bass.class, value(TUNING), value(BEATS));

  /** The leading tune, with its pitch curve. */
  public static final Facet<Melody> MELODY =
      new Facet<>("melody", Melody.class, value(TUNING), value(BEATS));

  /** Chords at the moment they arrive, decoded together with keys; repeats share evidence. */
  public static final Facet<Chords> CHORDS =
      new Facet<>(
          "chords",
          Chords.class,
          value(TUNING),
          value(BEATS),
          value(METER),
          value(FORM),
          full(BASS),
          value(MELODY));

  /** Tonic and mode by region. */
  public static final Facet<Keys> KEYS =
      new Facet<>(
          "keys", Keys.class, value(METER), value(FORM), full(CHORDS), value(MELODY), value(BASS));

  /** Chords seen from the key: numerals, function, arrival against the grid. */
  public static final Facet<Harmony> HARMONY =
      new Facet<>(
          "harmony",
          Harmony.class,
          value(BEATS),
          value(METER),
          value(FORM),
          full(CHORDS),
          full(KEYS));

  /** Sung lines besides the lead. */
  public static final Facet<Voices> VOICES =
      new Facet<>("voices", Voices.class, value(TUNING), value(BEATS), value(MELODY));

  /** The accompaniment's lines. */
  public static final Facet<Lines> LINES =
      new Facet<>(
          "lines",
          Lines.class,
          value(TUNING),
          value(BEATS),
          value(METER),
          value(BASS),
          value(MELODY),
          value(VOICES));

  /** Loudness by bar. */
  public static final Facet<Dynamics> DYNAMICS =
      new Facet<>("dynamics", Dynamics.class, value(METER));

  /** Where sounds stand between left and right, and how wide each bar is. */
  public static final Facet<Space> SPACE =
      new Facet<>("space", Space.class, value(BEATS), value(METER), value(BASS), value(MELODY));

  /** Layers with their entries and exits, and what rises, opens, stops or ducks. */
  public static final Facet<Texture> TEXTURE =
      new Facet<>(
          "texture",
          Texture.class,
          value(BEATS),
          value(METER),
          value(FORM),
          value(BASS),
          value(MELODY),
          value(DYNAMICS));

  /** Delays, lines performed again, doubles, and the room. */
  public static final Facet<Echoes> ECHOES =
      new Facet<>(
          "echoes",
          Echoes.class,
          value(BEATS),
          value(METER),
          value(FORM),
          value(MELODY),
          value(LINES));

  /** What is different when a section returns. */
  public static final Facet<Repeats> REPEATS =
      new Facet<>(
          "repeats",
          Repeats.class,
          value(BEATS),
          value(METER),
          value(FORM),
          value(BASS),
          value(MELODY),
          full(CHORDS),
          value(VOICES),
          value(LINES),
          value(DYNAMICS),
          value(SPACE),
          value(TEXTURE));

  /** Figures that come back, and how each part moves. */
  public static final Facet<Motifs> MOTIFS =
      new Facet<>(
          "motifs",
          Motifs.class,
          value(BEATS),
          value(METER),
          value(FORM),
          value(BASS),
          value(MELODY),
          value(CHORDS),
          value(KEYS),
          value(VOICES),
          value(LINES));

  /** What the sections are called and what they do. */
  public static final Facet<Roles> ROLES =
      new Facet<>(
          "roles",
          Roles.class,
          value(METER),
          value(FORM),
          value(HARMONY),
          value(DYNAMICS),
          value(MELODY));

  /** Every facet, each after all it is derived from. */
  public static final List<Facet<?>> IN_ORDER =
      List.of(
          TUNING, BEATS, METER, FORM, BASS, MELODY, CHORDS, KEYS, HARMONY, VOICES, LINES, DYNAMICS,
          SPACE, TEXTURE, ECHOES, REPEATS, MOTIFS, ROLES);

  private final String name;
  private final Class<V> valueType;
  private final List<Input> inputs;

  private Facet(String name, Class<V> valueType, Input... inputs) {
    this.name = name;
    this.valueType = valueType;
    this.inputs = List.of(inputs);
  }

  /** One facet read by another: its value only, or also how sure it is. */
  public record Input(Facet<?> facet, boolean withProbability) {}

  private static Input value(Facet<?> facet) {
    return new Input(facet, false);
  }

  private static Input full(Facet<?> facet) {
    return new Input(facet, true);
  }

  public static Facet<?> named(String name) {
    return IN_ORDER.stream()
        .filter(facet -> facet.name.equals(name))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "No facet is called \"%s\"; there are %s.".formatted(name, IN_ORDER)));
  }

  public String name() {
    return name;
  }

  public Class<V> valueType() {
    return valueType;
  }

  public List<Input> inputs() {
    return inputs;
  }

  @Override
  public String toString() {
    return name;
  }
}
