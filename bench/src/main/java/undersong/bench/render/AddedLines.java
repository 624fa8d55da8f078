package undersong.bench.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import undersong.bench.data.Chart;
import undersong.bench.metrics.ChordCode;
import undersong.bench.render.Part.Role;

/** Lines that a producer adds to a band's parts, and what the band leaves out for them. */
final class AddedLines {
  private AddedLines() {}

  /** Chords as all but the addition play them: first sections without their thirds. */
  static List<Harmony> withoutThirds(List<Harmony> harmony, Chart chart) {
    List<Passage> passages = Passage.of(chart);
    return harmony.stream()
        .map(
            h -> {
              boolean kept =
                  !h.chord().sounds()
                      || passages.stream()
                          .noneMatch(p -> p.letter().equals("A") && p.holds(h.writtenBeat()));
              int open = h.chord().bits() & ~(1 << 3 | 1 << 4);
              return kept
                  ? h
                  : new Harmony(
                      h.playedBeat(),
                      h.endBeat(),
                      h.writtenBeat(),
                      ChordCode.of(h.chord().root(), open, h.chord().bass()));
            })
        .toList();
  }

  /** The thirds that only a repeat has. */
  static Part thirds(Song song, List<Passage> passages, List<Harmony> harmony) {
    List<PlayedNote> thirds = new ArrayList<>();
    for (Passage p : passages) {
      for (Harmony h : harmony) {
        boolean major = (h.chord().bits() & 1 << 4) != 0;
        if (p.letter().equals("A") && p.holds(h.writtenBeat()) && h.chord().hasThird()) {
          int third = h.chord().root() + (major ? 4 : 3);
          int pitch = 62 + Math.floorMod(third - 62, 12);
          thirds.add(new PlayedNote(h.playedBeat(), h.endBeat() - 0.06, pitch, 88));
        }
      }
    }
    int[] programs = {71, 60, 69, 11};
    int program = programs[song.random(40).nextInt(programs.length)];
    return Part.played(Role.ADDITION, program, thirds, Strip.at(0.25, 0, 0.2));
  }

  /** Short lines over the choruses, by turns left and right. */
  static List<Part> byTurns(Song song, Chart chart, List<Passage> passages, List<Harmony> harmony) {
    Random random = song.random(41);
    int perBar = song.bpm() < 105 ? 2 : 1;
    List<List<PlayedNote>> sides = List.of(new ArrayList<>(), new ArrayList<>());
    int[] starts = chart.barStarts();
    int turn = 0;
    for (Passage p : passages) {
      if (!p.isChorus()) {
        continue;
      }
      for (int b = 0; b < chart.bars().size(); b++) {
        for (int k = 0; k < perBar && p.holds(starts[b]); k++) {
          double slot = (double) chart.bars().get(b).beats() / perBar;
          line(sides.get(turn++ % 2), harmony, starts[b] + k * slot, slot, random);
        }
      }
    }
    int[] programs = {11, 12, 24, 46, 8};
    int program = programs[random.nextInt(programs.length)];
    double left = -0.55 - 0.4 * random.nextDouble();
    double right = 0.55 + 0.4 * random.nextDouble();
    return List.of(
        Part.played(Role.LINE, program, sides.get(0), Strip.at(left, 0, 0.1)),
        Part.played(Role.LINE, program, sides.get(1), Strip.at(right, 0, 0.1)));
  }

  /** Three to five short notes, up or down the chord, that leave the end of their slot free. */
  private static void line(
      List<PlayedNote> notes, List<Harmony> harmony, double from, double beats, Random random) {
    List<Integer> tones = Harmony.at(harmony, from).upperPitchClasses();
    int count = Math.min(3 + random.nextInt(3), (int) (beats * 2) - 1);
    int step = random.nextBoolean() ? 1 : -1;
    int pitch = step > 0 ? 67 + random.nextInt(6) : 82 + random.nextInt(5);
    for (int i = 0; i < count && !tones.isEmpty(); i++) {
      while (!tones.contains(pitch % 12)) {
        pitch += step;
      }
      notes.add(new PlayedNote(from + 0.5 * i, from + 0.5 * i + 0.4, pitch, 92));
      pitch += step;
    }
  }
}
