package undersong.estimate.key;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import undersong.reading.Form;
import undersong.reading.Section;

/**
 * Sections of one letter are the same music: where a song goes to and fro between two keys by its
 * sections, each alone says too little to pay for two changes, all of a letter together do not. A
 * letter gets a key of its own where the evidence of all its sections pays for it.
 */
final class KeysByLetter {
  /** Price of each change of key more than one, as a natural logarithm. */
  private static final double EACH_FURTHER = 1;

  /** Any other key may follow for this; what is rarer costs more. */
  private static final double USUAL = -2;

  /** What joining regions must gain. */
  private static final double JOINING = 0.5;

  private static final int MOST = 3;
  private static final int FEWEST_BARS = 4;

  private final float[][] evidence;
  private final float[][] motion;
  private final double price;

  private KeysByLetter(float[][] evidence, float[][] motion, double price) {
    this.evidence = evidence;
    this.motion = motion;
    this.price = price;
  }

  private record Stretch(int from, int to, int semitones) {}

  private record Choice(double gain, List<Stretch> letter, int key) {}

  /**
   * The path with up to three letters moved to keys of their own.
   *
   * @param path key of each unit
   * @param price of a letter's own key, as a positive logarithm
   */
  static int[] decided(
      int[] path,
      float[][] evidence,
      float[][] motion,
      double price,
      Form form,
      double[] boundaries) {
    KeysByLetter keys = new KeysByLetter(evidence, motion, price);
    List<List<Stretch>> letters = letters(form, boundaries);
    int[] out = path;
    for (int i = 0; i < MOST; i++) {
      Choice best = new Choice(0, List.of(), 0);
      for (List<Stretch> letter : letters) {
        for (int key = 0; key < TonicEvidence.KEYS; key++) {
          double gain = keys.gain(out, letter, key);
          best = gain > best.gain ? new Choice(gain, letter, key) : best;
        }
      }
      if (best.letter.isEmpty()) {
        break;
      }
      out = moved(out, best.letter, best.key);
    }
    return out;
  }

  /** What it gains to give the sections of a letter one key, moved where they are moved. */
  private double gain(int[] path, List<Stretch> letter, int key) {
    int[] moved = moved(path, letter, key);
    double gain = 0;
    int[] held = new int[TonicEvidence.KEYS];
    for (Stretch stretch : letter) {
      for (int unit = stretch.from; unit < stretch.to; unit++) {
        gain += evidence[unit][moved[unit]] - evidence[unit][path[unit]];
        held[path[unit]]++;
      }
    }
    int more = changes(moved) - changes(path);
    return gain - (more > 0 ? priced(held, key, more) : JOINING);
  }

  private static int[] moved(int[] path, List<Stretch> letter, int key) {
    int[] moved = path.clone();
    for (Stretch stretch : letter) {
      int there = key - key % 12 + Math.floorMod(key + stretch.semitones, 12);
      Arrays.fill(moved, stretch.from, stretch.to, there);
    }
    return moved;
  }

  private double priced(int[] held, int key, int more) {
    int mostly = 0;
    for (int k = 1; k < held.length; k++) {
      mostly = held[k] > held[mostly] ? k : mostly;
    }
    double rare = mostly == key ? 0 : Math.max(0, USUAL - motion[mostly][key]);
    return price + EACH_FURTHER * (more - 1) + rare;
  }

  private static int changes(int[] path) {
    int changes = 0;
    for (int unit = 1; unit < path.length; unit++) {
      changes += path[unit] == path[unit - 1] ? 0 : 1;
    }
    return changes;
  }

  /** Units of the sections of each letter that comes twice or more and is not too short. */
  private static List<List<Stretch>> letters(Form form, double[] boundaries) {
    Map<String, List<Stretch>> letters = new LinkedHashMap<>();
    int units = boundaries.length - 1;
    for (Section section : form.sections()) {
      int from = ChordPieces.unitAt(section.span().startSeconds(), boundaries);
      int to = ChordPieces.unitAt(section.span().endSeconds(), boundaries);
      to = to >= units - 1 ? units : to;
      if (to > from) {
        letters
            .computeIfAbsent(section.letter(), letter -> new ArrayList<>())
            .add(new Stretch(from, to, section.transposedSemitones()));
      }
    }
    return letters.values().stream()
        .filter(letter -> letter.size() > 1)
        .filter(letter -> letter.stream().mapToInt(s -> s.to - s.from).sum() >= FEWEST_BARS)
        .toList();
  }
}
