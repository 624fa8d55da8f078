package undersong.bench.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** Plays the lowest notes: the chord's bass, and other chord tones where it walks. */
final class BassPlayer {
  private static final int LOWEST = 28;
  private static final int HIGHEST = 48;

  private final Random random;
  private final List<PlayedNote> notes = new ArrayList<>();
  private int last = 36;

  private BassPlayer(Random random) {
    this.random = random;
  }

  static List<PlayedNote> play(
      List<Harmony> harmony, Style.Bass style, boolean compound, Random random) {
    BassPlayer player = new BassPlayer(random);
    for (Harmony h : harmony) {
      if (h.chord().sounds()) {
        player.play(h, style, compound);
      }
    }
    return player.notes;
  }

  private void play(Harmony h, Style.Bass style, boolean compound) {
    int pitch = place(h.chord().bassPitchClass());
    double step =
        switch (style) {
          case LONG -> h.beats();
          case BEATS, WALKING -> 1;
          case EIGHTHS, OFF_BEATS, RIFF -> compound ? 1.0 / 3 : 0.5;
          case THREE_THREE_TWO -> compound ? 1 : 1.5;
        };
    double at = h.playedBeat();
    boolean first = true;
    while (at < h.endBeat() - 0.05) {
      double grid = first ? Math.floor(at / step + 1e-6) * step + step : at + step;
      double end = Math.min(h.endBeat(), Math.max(grid, at + 0.1));
      int played = style == Style.Bass.WALKING && !first ? walk(h) : pitch;
      boolean rest = style == Style.Bass.OFF_BEATS && !first && isOnBeat(at);
      if (!rest) {
        boolean hard = style == Style.Bass.RIFF ? Riff.isHard(at) : first;
        int velocity = (hard ? 100 : 88) + (int) (5 * random.nextGaussian());
        notes.add(new PlayedNote(at, end - 0.04, played, Math.max(30, Math.min(127, velocity))));
        last = played;
      }
      at = end;
      first = false;
    }
  }

  private static boolean isOnBeat(double beat) {
    return Math.abs(beat - Math.rint(beat)) < 0.05;
  }

  private int place(int pitchClass) {
    int best = -1;
    for (int pitch = LOWEST; pitch <= HIGHEST; pitch++) {
      if (pitch % 12 == pitchClass
          && (best < 0 || Math.abs(pitch - last) < Math.abs(best - last))) {
        best = pitch;
      }
    }
    return best;
  }

  private int walk(Harmony h) {
    List<Integer> tones = h.upperPitchClasses();
    return place(tones.get(random.nextInt(tones.size())));
  }
}
