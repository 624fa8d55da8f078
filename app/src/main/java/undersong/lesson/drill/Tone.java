package undersong.lesson.drill;

/**
 * One plain tone of an exercise.
 *
 * @param part "melody", "bass", "chords" or "click": how it is voiced
 * @param atSeconds from the exercise's beginning
 * @param lengthSeconds it sounds
 * @param midi its pitch; clicks have one too
 * @param pan from -1, left, to 1, right
 * @param level 1 as usual; an echo is softer
 */
public record Tone(
    String part, double atSeconds, double lengthSeconds, int midi, double pan, double level) {
  public Tone {
    if (!(atSeconds >= 0 && lengthSeconds > 0 && midi >= 21 && midi <= 108)) {
      throw new IllegalArgumentException(
          "Tone %d at %s s for %s s must begin at 0 or later, last, and lie on the piano."
              .formatted(midi, atSeconds, lengthSeconds));
    }
    if (!(Math.abs(pan) <= 1 && level > 0 && level <= 1)) {
      throw new IllegalArgumentException(
          "Tone placed at %s with level %s must lie within -1 to 1 and 0 to 1."
              .formatted(pan, level));
    }
  }

  static Tone of(String part, double atSeconds, double lengthSeconds, int midi) {
    return new Tone(part, atSeconds, lengthSeconds, midi, 0, 1);
  }
}
