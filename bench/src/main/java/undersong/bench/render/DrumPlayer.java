package undersong.bench.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import undersong.bench.data.Chart;

/** Plays the drums bar by bar, with a fill before each new section and a cymbal on it. */
final class DrumPlayer {
  private static final int KICK = 36;
  private static final int STICK = 37;
  private static final int SNARE = 38;
  private static final int CLAP = 39;
  private static final int CLOSED_HAT = 42;
  private static final int FOOT_HAT = 44;
  private static final int OPEN_HAT = 46;
  private static final int TOM = 45;
  private static final int CRASH = 49;
  private static final int RIDE = 51;

  private final Random random;
  private final List<PlayedNote> notes = new ArrayList<>();

  private DrumPlayer(Random random) {
    this.random = random;
  }

  static List<PlayedNote> play(Chart chart, Style style, Random random) {
    DrumPlayer player = new DrumPlayer(random);
    if (style.drums == Style.Drums.NONE) {
      return List.of();
    }
    int[] starts = chart.barStarts();
    for (int b = 0; b < chart.bars().size(); b++) {
      Chart.Bar bar = chart.bars().get(b);
      if (bar.opensSection()) {
        player.hit(starts[b], CRASH, 100);
      }
      boolean fill = b + 1 < chart.bars().size() && chart.bars().get(b + 1).opensSection();
      boolean other = bar.letter().charAt(0) % 2 == 0;
      player.bar(other ? style.otherDrums : style.drums, starts[b], bar, fill);
    }
    return player.notes;
  }

  private void hit(double beat, int drum, int velocity) {
    int played = Math.max(20, Math.min(127, velocity + (int) (6 * random.nextGaussian())));
    notes.add(new PlayedNote(beat, beat + 0.2, drum, played));
  }

  private void bar(Style.Drums style, double start, Chart.Bar bar, boolean fill) {
    int beats = bar.beats();
    double division = bar.compound() ? 1.0 / 3 : 0.5;
    double fillFrom = fill ? beats - 1 : beats;
    for (int beat = 0; beat < beats; beat++) {
      if (beat >= fillFrom) {
        for (double f = 0; f < 0.99; f += bar.compound() ? 1.0 / 3 : 0.25) {
          hit(start + beat + f, f < 0.5 ? SNARE : TOM, 90 + (int) (20 * f));
        }
      } else {
        beat(style, start + beat, beat, bar, division);
      }
    }
  }

  private void beat(Style.Drums style, double at, int beat, Chart.Bar bar, double division) {
    int beats = bar.beats();
    boolean strong = beat == 0 || (beats >= 4 && beat == (beats == 5 ? 3 : beats / 2));
    boolean back =
        bar.compound() ? beat % 2 == 1 : beats == 3 ? beat > 0 : !strong && beat % 2 == 1;
    switch (style) {
      case BACKBEAT -> {
        hats(at, CLOSED_HAT, division, 70);
        kickAndSnare(at, strong, back, SNARE);
        if (random.nextDouble() < 0.25 && !bar.compound()) {
          hit(at + 0.5, KICK, 85);
        }
      }
      case SOFT -> {
        hats(at, CLOSED_HAT, beat % 2 == 0 ? division : 1, 50);
        kickAndSnare(at, strong, back, STICK);
      }
      case FOUR_ON_THE_FLOOR -> {
        hit(at, KICK, 115);
        hit(at + division * (bar.compound() ? 2 : 1), OPEN_HAT, 75);
        if (back) {
          hit(at, CLAP, 100);
        }
      }
      case RIDE -> {
        hit(at, RIDE, 85);
        if (back) {
          hit(at + (bar.compound() ? 2.0 / 3 : 0.5), RIDE, 65);
          hit(at, FOOT_HAT, 70);
        }
        if (strong) {
          hit(at, KICK, 70);
        }
      }
      case THREE_THREE_TWO -> {
        hats(at, CLOSED_HAT, division, 60);
        if (beat % 4 == 0) {
          hit(at, KICK, 105);
        } else if (beat % 4 == 1 && !bar.compound() && beats >= 4) {
          hit(at + 0.5, KICK, 100);
        } else if (beat % 4 == 3) {
          hit(at, KICK, 95);
        }
        if (back) {
          hit(at, STICK, 95);
        }
      }
      case HALF -> {
        hats(at, CLOSED_HAT, division, 65);
        if (beat == 0) {
          hit(at, KICK, 110);
        } else if (strong) {
          hit(at, SNARE, 110);
        } else if (random.nextDouble() < 0.3) {
          hit(at + (bar.compound() ? 2.0 / 3 : 0.5), KICK, 80);
        }
      }
      case DRIVING -> {
        hats(at, beat % 2 == 0 ? CRASH : OPEN_HAT, 1, 75);
        hit(at, KICK, 115);
        hit(at + (bar.compound() ? 1.0 / 3 : 0.5), KICK, 100);
        if (back) {
          hit(at, SNARE, 120);
        }
      }
      case BETWEEN -> {
        hit(at, KICK, 112);
        hit(at + division, SNARE, 116);
        hit(at, OPEN_HAT, 72);
      }
      case ON_ALL -> {
        hit(at, SNARE, 116);
        hit(at + division, KICK, 112);
        hit(at + division, CRASH, 70);
      }
      case PUSHED -> {
        hit(at + division, OPEN_HAT, 90);
        hit(at + division, KICK, 108);
        if (beat == 0) {
          hit(at, KICK, 108);
        } else if (back) {
          hit(at, SNARE, 110);
        }
      }
      case NONE -> {}
    }
  }

  private void hats(double at, int drum, double division, int velocity) {
    for (double f = 0; f < 0.99; f += division) {
      hit(at + f, drum, f == 0 ? velocity + 12 : velocity - 8);
    }
  }

  private void kickAndSnare(double at, boolean strong, boolean back, int snare) {
    if (strong) {
      hit(at, KICK, 108);
    } else if (back) {
      hit(at, snare, 104);
    }
  }
}
