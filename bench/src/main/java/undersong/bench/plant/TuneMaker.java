package undersong.bench.plant;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.LeadSheet;

/**
 * Writes a plain tune over chords: chord tones where a note is long or on the beat, steps of the
 * scale between them, two phrases of four bars that end on a long note and a breath, no rhythm
 * twice in a row.
 */
final class TuneMaker {
  private static final List<String> RHYTHMS =
      List.of("x-x-x---", "x---x-x-", "x-xxx---", "x-x-xxx-", "xxx-x---", "x-----x-", "x---xxx-");
  private static final List<String> ENDS = List.of("x-x-x...", "x---....", "xxx-....");

  private final Random chance;
  private final int lowest;
  private final int highest;
  private int before;

  /**
   * @param lowest lowest MIDI pitch
   * @param highest highest; reached at least once
   */
  TuneMaker(Random chance, int lowest, int highest) {
    this.chance = chance;
    this.lowest = lowest;
    this.highest = highest;
    this.before = (lowest + highest) / 2;
  }

  void write(Passage passage, boolean[] scale) {
    passage.tune.clear();
    String last = "";
    for (int bar = 0; bar < passage.bars(); bar++) {
      List<String> choices =
          new ArrayList<>(bar % 4 == 3 || bar == passage.bars() - 1 ? ENDS : RHYTHMS);
      choices.remove(last);
      last = choices.get(chance.nextInt(choices.size()));
      passage.tune.add(bar(passage.chords.get(bar), last, scale));
    }
    reachTop(passage);
  }

  private int[] bar(String chordText, String rhythm, boolean[] scale) {
    String[] chords = chordText.split(" +", -1);
    int[] notes = new int[Passage.SLOTS];
    for (int slot = 0; slot < notes.length; slot++) {
      char mark = rhythm.charAt(slot);
      if (mark != 'x') {
        notes[slot] = mark == '-' ? Passage.HOLD : Passage.REST;
        continue;
      }
      boolean isolated = slot + 1 < notes.length && rhythm.charAt(slot + 1) == 'x' && slot % 2 == 1;
      boolean[] allowed = isolated ? scale : tones(chords[slot * chords.length / notes.length]);
      before = near(allowed, before + chance.nextInt(9) - 4, isolated);
      notes[slot] = before;
    }
    return notes;
  }

  /** Pitch classes of a chord that a tune may rest on: its triad. */
  static boolean[] tones(String symbol) {
    boolean[] tones = new boolean[12];
    if (LeadSheet.parse(symbol) instanceof Chord chord) {
      chord.tones().stream().limit(3).forEach(tone -> tones[tone.pitchClass()] = true);
    }
    return tones;
  }

  /** Nearest allowed pitch to a wish, another than the last one where it can be. */
  private int near(boolean[] allowed, int wish, boolean step) {
    int best = before;
    double bestCost = Double.MAX_VALUE;
    for (int pitch = lowest; pitch <= highest; pitch++) {
      if (!allowed[pitch % 12]) {
        continue;
      }
      double cost =
          Math.abs(pitch - wish)
              + (pitch == before ? 2.5 : 0)
              + (Math.abs(pitch - before) > 7 ? 8 : 0)
              + (step && Math.abs(pitch - before) > 2 ? 6 : 0);
      if (cost < bestCost) {
        bestCost = cost;
        best = pitch;
      }
    }
    return best;
  }

  /** Lifts the highest long note to the top of the range, where a chord tone lies there. */
  private void reachTop(Passage passage) {
    for (int bar = 1; bar < passage.bars(); bar++) {
      boolean[] tones = tones(passage.chords.get(bar).split(" +", -1)[0]);
      int top = highest;
      while (top > highest - 5 && !tones[top % 12]) {
        top--;
      }
      if (top >= highest - 1) {
        passage.tune.get(bar)[0] = top;
        return;
      }
    }
  }
}
