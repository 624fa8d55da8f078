package undersong.bench.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** Plays chords in close position, arpeggios and held chords, moving as little as possible. */
final class ChordPlayer {
  private static final int CENTER = 60;

  private final Random random;
  private int lastTop = 67;

  private ChordPlayer(Random random) {
    this.random = random;
  }

  static List<PlayedNote> comp(
      List<Harmony> harmony, Style.Comping style, boolean compound, Random random) {
    ChordPlayer player = new ChordPlayer(random);
    List<PlayedNote> notes = new ArrayList<>();
    for (Harmony h : harmony) {
      if (h.chord().sounds() && !isBassAlone(h)) {
        List<Integer> voicing = player.voicing(h, CENTER);
        for (double[] stroke : strokes(h, style, compound)) {
          player.strike(notes, voicing, stroke, style);
        }
      }
    }
    return notes;
  }

  static List<PlayedNote> arpeggiate(List<Harmony> harmony, boolean compound, Random random) {
    ChordPlayer player = new ChordPlayer(random);
    List<PlayedNote> notes = new ArrayList<>();
    double step = compound ? 1.0 / 3 : 0.5;
    for (Harmony h : harmony) {
      if (h.chord().sounds() && !isBassAlone(h)) {
        List<Integer> voicing = player.voicing(h, CENTER + 7);
        int i = 0;
        for (double at = h.playedBeat(); at < h.endBeat() - 0.05; at += step) {
          int pitch = voicing.get(i % voicing.size()) + (i / voicing.size() % 2 == 0 ? 0 : 12);
          notes.add(new PlayedNote(at, Math.min(h.endBeat(), at + 2 * step), pitch, 74));
          i++;
        }
      }
    }
    return notes;
  }

  static List<PlayedNote> hold(List<Harmony> harmony, Random random) {
    ChordPlayer player = new ChordPlayer(random);
    List<PlayedNote> notes = new ArrayList<>();
    for (Harmony h : harmony) {
      if (h.chord().sounds() && !isBassAlone(h)) {
        for (int pitch : player.voicing(h, CENTER + 3)) {
          notes.add(new PlayedNote(h.playedBeat(), h.endBeat(), pitch, 66));
        }
      }
    }
    return notes;
  }

  private static boolean isBassAlone(Harmony h) {
    return h.upperPitchClasses().size() < 2;
  }

  /** Start and end of each stroke while a chord sounds. */
  private static List<double[]> strokes(Harmony h, Style.Comping style, boolean compound) {
    List<double[]> strokes = new ArrayList<>();
    double division = compound ? 1.0 / 3 : 0.5;
    if (style == Style.Comping.LONG) {
      strokes.add(new double[] {h.playedBeat(), h.endBeat()});
      return strokes;
    }
    boolean first = true;
    for (double at = h.playedBeat(); at < h.endBeat() - 0.05; at = next(at, division)) {
      double inBeat = at - Math.floor(at + 1e-6);
      boolean onBeat = inBeat < 0.05;
      boolean plays =
          first
              || switch (style) {
                case BEATS -> onBeat;
                case STABS -> !onBeat && Math.floor(at) % 2 == 1;
                case STRUM -> onBeat || Math.floor(at) % 2 == 1;
                default -> true;
              };
      if (plays) {
        double length =
            switch (style) {
              case BEATS -> 0.95;
              case STABS -> first ? 0.9 : 0.3;
              case STRUM -> onBeat ? 0.9 : 0.45;
              case RIFF -> Riff.isHard(at) ? division * 0.95 : division * 0.4;
              default -> division * 0.9;
            };
        strokes.add(new double[] {at, Math.min(h.endBeat(), at + length)});
      }
      first = false;
    }
    return strokes;
  }

  private static double next(double at, double division) {
    return (Math.floor(at / division + 1e-6) + 1) * division;
  }

  private void strike(
      List<PlayedNote> notes, List<Integer> voicing, double[] stroke, Style.Comping style) {
    int velocity = 76 + random.nextInt(14);
    if (style == Style.Comping.RIFF) {
      velocity += Riff.isHard(stroke[0]) ? 22 : -14;
    }
    for (int i = 0; i < voicing.size(); i++) {
      double at = stroke[0] + (style == Style.Comping.STRUM ? 0.012 * i : 0);
      notes.add(new PlayedNote(at, Math.max(stroke[1], at + 0.05), voicing.get(i), velocity));
    }
  }

  /** Close position whose top lies nearest to the last chord's top. */
  private List<Integer> voicing(Harmony h, int center) {
    List<Integer> pitchClasses = h.upperPitchClasses();
    List<Integer> best = List.of();
    int bestMove = Integer.MAX_VALUE;
    for (int lowest = 0; lowest < pitchClasses.size(); lowest++) {
      List<Integer> voicing = new ArrayList<>();
      int pitch = center - 8 + Math.floorMod(pitchClasses.get(lowest) - (center - 8), 12);
      for (int i = 0; i < pitchClasses.size(); i++) {
        int wanted = pitchClasses.get((lowest + i) % pitchClasses.size());
        pitch += Math.floorMod(wanted - pitch, 12);
        voicing.add(pitch);
        pitch++;
      }
      int top = voicing.get(voicing.size() - 1);
      int move = Math.abs(top - lastTop) + Math.abs(top - center - 8);
      if (move < bestMove) {
        bestMove = move;
        best = voicing;
      }
    }
    lastTop = best.get(best.size() - 1);
    return best;
  }
}
