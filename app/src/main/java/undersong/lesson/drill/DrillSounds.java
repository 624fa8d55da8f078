package undersong.lesson.drill;

import java.util.ArrayList;
import java.util.List;
import java.util.random.RandomGenerator;
import undersong.theory.ChordQuality;
import undersong.theory.RomanNumeral;
import undersong.theory.ScaleDegree;

/** The tones exercises are put together from: chords in close position, a bass, a click. */
final class DrillSounds {
  /** Chords lie in the octave from the F below middle C, the bass in that from E2. */
  private static final int LOWEST_CHORD_NOTE = 53;

  private static final int LOWEST_BASS_NOTE = 40;
  private static final int CLICK = 96;

  private DrillSounds() {}

  /** A pitch class in the octave that begins at a MIDI number. */
  static int from(int lowest, int pitchClass) {
    return lowest + Math.floorMod(pitchClass - lowest, 12);
  }

  static void chord(
      List<Tone> tones, double at, double length, int rootPitchClass, ChordQuality quality) {
    for (int semitones : quality.semitones()) {
      int midi = from(LOWEST_CHORD_NOTE, rootPitchClass + semitones);
      tones.add(Tone.of("chords", at, length, midi));
    }
  }

  static void bass(List<Tone> tones, double at, double length, int pitchClass) {
    tones.add(Tone.of("bass", at, length, from(LOWEST_BASS_NOTE, pitchClass)));
  }

  /** A chord over its bass, seen from a tonic. */
  static void numeral(List<Tone> tones, double at, double length, int tonic, RomanNumeral numeral) {
    int above = numeral.appliedTo().map(ScaleDegree::semitones).orElse(0);
    chord(tones, at, length, tonic + above + numeral.root().semitones(), numeral.quality());
    bass(tones, at, length, tonic + above + numeral.bass().semitones());
  }

  static void clicks(List<Tone> tones, int beats, double beatSeconds) {
    for (int beat = 0; beat < beats; beat++) {
      tones.add(
          new Tone("click", beat * beatSeconds, 0.04, beat % 4 == 0 ? CLICK + 7 : CLICK, 0, 0.6));
    }
  }

  /** The right answer among others, in any order, without repeats. */
  static List<String> choices(RandomGenerator random, String right, List<String> wrong, int count) {
    List<String> others = new ArrayList<>(wrong.stream().distinct().toList());
    others.remove(right);
    java.util.Collections.shuffle(others, new java.util.Random(random.nextLong()));
    List<String> choices = new ArrayList<>(others.subList(0, Math.min(count - 1, others.size())));
    choices.add(random.nextInt(choices.size() + 1), right);
    return choices;
  }

  static <T> T any(RandomGenerator random, List<T> from) {
    return from.get(random.nextInt(from.size()));
  }
}
