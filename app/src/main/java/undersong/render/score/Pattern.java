package undersong.render.score;

/**
 * A rhythm that takes its pitches from the chords: {@code x} plays, {@code X} plays harder, a digit
 * plays one voice, {@code -} holds, {@code .} rests; {@link #HELD} holds each chord for as long as
 * it lasts.
 *
 * @param bars one text per bar; empty for {@link #HELD}
 */
record Pattern(java.util.List<String> bars) {
  static final Pattern HELD = new Pattern(java.util.List.of());

  Pattern {
    bars = java.util.List.copyOf(bars);
  }

  boolean isHeld() {
    return bars.isEmpty();
  }
}
