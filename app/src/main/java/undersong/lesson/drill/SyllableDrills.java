package undersong.lesson.drill;

import static undersong.lesson.drill.DrillSounds.choices;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.SplittableRandom;
import undersong.theory.ChordQuality;
import undersong.theory.Key;
import undersong.theory.Mode;
import undersong.theory.NoteName;
import undersong.theory.ScaleDegree;
import undersong.theory.SyllableSettings;
import undersong.theory.Syllables;

/**
 * Exercises answered in movable-do syllables: a key is given by its cadence, then a line sounds.
 */
final class SyllableDrills {
  private static final double NOTE_SECONDS = 0.7;

  private SyllableDrills() {}

  static Drill tune(int level, SplittableRandom random, DrillSource source) {
    Key key = key(random, level == 1 ? Mode.MAJOR : plain(source.mode()));
    int count = 2 + level;
    List<Integer> steps = new ArrayList<>();
    int step = random.nextInt(0, 5);
    for (int i = 0; i < count; i++) {
      steps.add(step);
      int move = level == 1 ? 1 : random.nextInt(1, 4);
      int next = step + (random.nextBoolean() ? move : -move);
      step = next < -2 || next > 8 ? step - Integer.signum(next - step) * move : next;
    }
    return drill(DrillKind.TUNE_SYLLABLES, "tune", level, random, key, steps, "melody", 60);
  }

  static Drill bass(int level, SplittableRandom random, DrillSource source) {
    Key key = key(random, level == 1 ? Mode.MAJOR : plain(source.mode()));
    int[][] roots = {{0, 3, 4}, {0, 3, 4, 5, 2}, {0, 1, 2, 3, 4, 5}};
    List<Integer> steps = new ArrayList<>(List.of(0));
    while (steps.size() < 2 + level) {
      int next = roots[level - 1][random.nextInt(roots[level - 1].length)];
      if (next != steps.get(steps.size() - 1)) {
        steps.add(next);
      }
    }
    return drill(DrillKind.BASS_SYLLABLES, "bass", level, random, key, steps, "bass", 38);
  }

  /** Modes whose cadence is not plain are answered in the major or minor nearest to them. */
  private static Mode plain(Mode mode) {
    return mode.hasMinorThird() ? Mode.NATURAL_MINOR : Mode.MAJOR;
  }

  private static Key key(SplittableRandom random, Mode mode) {
    return new Key(new NoteName(random.nextInt(-4, 6) + (mode.hasMinorThird() ? 3 : 0)), mode);
  }

  private static Drill drill(
      DrillKind kind,
      String line,
      int level,
      SplittableRandom random,
      Key key,
      List<Integer> steps,
      String part,
      int lowest) {
    // On the third level one inner note, never the first, is raised or lowered within the scale's
    // gaps.
    int altered = level == 3 ? random.nextInt(1, steps.size()) : -1;
    List<ScaleDegree> degrees = new ArrayList<>();
    for (int i = 0; i < steps.size(); i++) {
      degrees.add(degree(key, steps.get(i), i == altered));
    }
    List<Tone> tones = new ArrayList<>();
    double at = cadence(tones, key);
    int tonic = DrillSounds.from(lowest, key.tonic().pitchClass());
    for (int i = 0; i < steps.size(); i++) {
      int octave = Math.floorDiv(steps.get(i), 7);
      int midi = tonic + 12 * octave + degrees.get(i).semitones();
      tones.add(Tone.of(part, at + i * NOTE_SECONDS, NOTE_SECONDS * 0.92, midi));
    }
    String right = words(degrees, key);
    List<String> wrong = new ArrayList<>();
    for (int i = 1; i < degrees.size(); i++) {
      for (int move : new int[] {-2, -1, 1, 2}) {
        List<ScaleDegree> other = new ArrayList<>(degrees);
        other.set(i, degree(key, steps.get(i) + move, false));
        wrong.add(words(other, key));
      }
      if (i == altered) {
        List<ScaleDegree> plain = new ArrayList<>(degrees);
        plain.set(i, degree(key, steps.get(i), false));
        wrong.add(words(plain, key));
      }
    }
    List<String> offered = choices(random, right, wrong, 4);
    return new Drill(
        kind,
        level,
        "The cadence gives the key. Which syllables has the %s after it?".formatted(line),
        tones,
        offered,
        offered.indexOf(right),
        OptionalInt.empty(),
        "In %s the %s goes %s.".formatted(key, line, right));
  }

  private static ScaleDegree degree(Key key, int step, boolean altered) {
    ScaleDegree own = key.degreeOfStep(Math.floorMod(step, 7));
    if (!altered) {
      return own;
    }
    boolean up =
        !key.contains(key.tonic().pitchClass() + own.semitones() + 1) && own.alteration() < 1;
    boolean down = !key.contains(key.tonic().pitchClass() + own.semitones() - 1);
    return new ScaleDegree(own.step(), own.alteration() + (up ? 1 : down ? -1 : 0));
  }

  private static String words(List<ScaleDegree> degrees, Key key) {
    return String.join(
        " ",
        degrees.stream()
            .map(degree -> Syllables.print(degree, key, SyllableSettings.DEFAULTS))
            .toList());
  }

  /**
   * Tonic, subdominant, dominant, tonic; minor with its raised leading tone. Where the line begins.
   */
  private static double cadence(List<Tone> tones, Key key) {
    ChordQuality own = key.mode().hasMinorThird() ? ChordQuality.MINOR : ChordQuality.MAJOR;
    int tonic = key.tonic().pitchClass();
    int[] roots = {0, 5, 7, 0};
    double chord = 0.6;
    for (int i = 0; i < roots.length; i++) {
      ChordQuality quality = roots[i] == 7 ? ChordQuality.MAJOR : own;
      DrillSounds.chord(tones, i * chord, chord * 0.95, tonic + roots[i], quality);
      DrillSounds.bass(tones, i * chord, chord * 0.95, tonic + roots[i]);
    }
    return roots.length * chord + 0.5;
  }
}
