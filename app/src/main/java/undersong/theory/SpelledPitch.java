package undersong.theory;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A note name in an octave, scientific pitch notation: C4 is middle C, and the octave follows the
 * letter (B#3 sounds like C4, Cb4 like B3).
 */
public record SpelledPitch(NoteName name, int octave) {
  private static final Pattern SPELLING = Pattern.compile("([A-G][#b]*)(-?\\d+)");
  private static final int[] PITCH_CLASS_OF_STEP = {0, 2, 4, 5, 7, 9, 11};
  private static final double A4_HZ = 440;
  private static final int A4_MIDI = 69;

  public SpelledPitch {
    if (octave < -1 || octave > 10) {
      throw new IllegalArgumentException(
          "Octave %d of %s must lie between -1 and 10; middle C is C4.".formatted(octave, name));
    }
  }

  /** Parses "C4", "F#3", "Bb-1"; throws on anything else. */
  public static SpelledPitch parse(String text) {
    Matcher matcher = SPELLING.matcher(text);
    if (!matcher.matches()) {
      throw new IllegalArgumentException(
          "Pitch \"%s\" must be a note name and an octave, such as F#3.".formatted(text));
    }
    return new SpelledPitch(NoteName.parse(matcher.group(1)), Integer.parseInt(matcher.group(2)));
  }

  /** The pitch with this MIDI number, written as the given name; throws if they do not agree. */
  public static SpelledPitch ofMidi(int midi, NoteName name) {
    if (Math.floorMod(midi - name.pitchClass(), 12) != 0) {
      throw new IllegalArgumentException(
          "MIDI number %d does not sound like %s.".formatted(midi, name));
    }
    int unaltered = midi - name.accidental();
    return new SpelledPitch(name, Math.floorDiv(unaltered, 12) - 1);
  }

  /** Letters counted from C0 = 0, so that neighbors on the staff differ by one. */
  public int step() {
    return 7 * octave + "CDEFGAB".indexOf(name.letter());
  }

  /** MIDI note number, middle C = 60. */
  public int midi() {
    int letter = PITCH_CLASS_OF_STEP["CDEFGAB".indexOf(name.letter())];
    return 12 * (octave + 1) + letter + name.accidental();
  }

  /** Frequency in equal temperament at A4 = 440 Hz (ISO 16). */
  public double hertz() {
    return hertz(midi());
  }

  /** Frequency of a MIDI number, whole or fractional, at A4 = 440 Hz (ISO 16). */
  public static double hertz(double midi) {
    return A4_HZ * Math.pow(2, (midi - A4_MIDI) / 12);
  }

  /** MIDI number, fractional, of a frequency at A4 = 440 Hz. */
  public static double midi(double hertz) {
    if (!(hertz > 0)) {
      throw new IllegalArgumentException("Frequency %s Hz must be above 0.".formatted(hertz));
    }
    return A4_MIDI + 12 * Math.log(hertz / A4_HZ) / Math.log(2);
  }

  @Override
  public String toString() {
    return name.toString() + octave;
  }
}
