package undersong.lesson.drill;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.SplittableRandom;

/** Exercises on what the desk does to a line: where it stands, whether it comes back by itself. */
final class SoundDrills {
  private static final int[] PENTATONIC = {0, 2, 4, 7, 9, 12};

  private SoundDrills() {}

  static Drill place(int level, SplittableRandom random) {
    double[] widths = {1, 0.5, 0.25};
    List<String> offered = List.of("left", "middle", "right");
    int answer = random.nextInt(3);
    double pan = (answer - 1) * widths[level - 1];
    List<Tone> tones = new ArrayList<>();
    int tonic = random.nextInt(60, 72);
    for (int i = 0; i < 6; i++) {
      int midi = tonic + PENTATONIC[random.nextInt(PENTATONIC.length)];
      tones.add(new Tone("melody", i * 0.4, 0.36, midi, pan, 1));
    }
    if (level == 3) {
      double other = answer == 1 ? 0.6 : -pan;
      for (int i = 0; i < 3; i++) {
        tones.add(new Tone("bass", i * 0.8, 0.7, tonic - 24 + PENTATONIC[i], other, 1));
      }
    }
    return new Drill(
        DrillKind.PLACE,
        level,
        level == 3
            ? "Two lines sound. Where does the higher one stand? Headphones help; keep them soft."
            : "Where does the line stand? Headphones help; keep them soft.",
        tones,
        offered,
        answer,
        OptionalInt.empty(),
        "It stands %s."
            .formatted(
                answer == 1
                    ? "in the middle"
                    : "%.0f %% of the way %s".formatted(100 * Math.abs(pan), offered.get(answer))));
  }

  static Drill echoOrAgain(int level, SplittableRandom random, DrillSource source) {
    boolean echo = random.nextBoolean();
    double beat = 60 / source.bpm();
    double lag = 4 * beat;
    double softer = level == 1 ? 0.6 : 0.35;
    double wander = level == 3 ? 0.035 : 0.07;
    int tonic = random.nextInt(60, 70);
    List<Tone> tones = new ArrayList<>();
    for (int i = 0; i < 4; i++) {
      int midi = tonic + PENTATONIC[random.nextInt(PENTATONIC.length)];
      double at = i * beat * 0.75;
      double length = beat * 0.6;
      tones.add(Tone.of("melody", at, length, midi));
      double drift = echo ? 0 : wander * (random.nextDouble() < 0.5 ? -1 : 1);
      double held = echo ? length : length * (0.7 + 0.6 * random.nextDouble());
      tones.add(new Tone("melody", at + lag + drift, held, midi, 0, softer));
    }
    List<String> offered = List.of("an echo", "sung again");
    return new Drill(
        DrillKind.ECHO_OR_AGAIN,
        level,
        "The line comes a second time, softer. Is it an echo, or is it sung again?",
        tones,
        offered,
        echo ? 0 : 1,
        OptionalInt.empty(),
        echo
            ? "An echo: every note returns after the same %.2f s with the same length."
                .formatted(lag)
            : "Sung again: the notes come up to %.0f ms off and are held otherwise."
                .formatted(1000 * wander));
  }
}
