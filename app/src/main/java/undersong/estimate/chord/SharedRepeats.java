package undersong.estimate.chord;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import undersong.reading.Bar;
import undersong.reading.Form;
import undersong.reading.Section;

/**
 * Copies of the same music share their evidence, bar by bar: each keeps most of its own and takes
 * in the mean of the others where they agree. A bar that differs keeps to itself, so that verses
 * may differ.
 *
 * <p>Source: M. Mauch, K. Noland, S. Dixon, "Using Musical Structure to Enhance Automatic Chord
 * Transcription", ISMIR 2009. Departs from it: shared by agreement, not by label alone.
 */
final class SharedRepeats {
  private static final float SHARE_OF_OTHERS = 0.5f;

  /** Log-odds so far from 0 are clear: what one copy adds or leaves out stays its own. */
  private static final float CLEAR = 3;

  /** Correlation of two bars from which they agree fully, and below which not at all. */
  private static final double AGREE = 0.8;

  private static final double DISAGREE = 0.4;

  private final ChordEvidence evidence;
  private final int[][] barSteps;
  private final int firstNumber;
  private final List<List<Copy>> copiesOfBar;

  /** Another bar of the same music, with the semitones to add to reach this one. */
  private record Copy(int bar, int semitones) {}

  SharedRepeats(ChordEvidence evidence, StepGrid grid, Form form, List<Bar> bars) {
    this.evidence = evidence;
    barSteps = grid.barSteps(bars.size());
    firstNumber = bars.isEmpty() ? 0 : bars.get(0).number();
    copiesOfBar = new ArrayList<>();
    for (int bar = 0; bar < bars.size(); bar++) {
      copiesOfBar.add(new ArrayList<>());
    }
    Map<String, List<Section>> byLetter = new LinkedHashMap<>();
    for (Section section : form.sections()) {
      byLetter.computeIfAbsent(section.letter(), letter -> new ArrayList<>()).add(section);
    }
    byLetter.values().forEach(this::pair);
  }

  private void pair(List<Section> copies) {
    for (Section here : copies) {
      for (Section there : copies) {
        int common =
            Math.min(here.lastBar() - here.firstBar(), there.lastBar() - there.firstBar()) + 1;
        for (int i = 0; !here.equals(there) && i < common; i++) {
          int bar = here.firstBar() - firstNumber + i;
          int other = there.firstBar() - firstNumber + i;
          if (bar >= 0 && other >= 0 && Math.max(bar, other) < copiesOfBar.size()) {
            copiesOfBar
                .get(bar)
                .add(new Copy(other, here.transposedSemitones() - there.transposedSemitones()));
          }
        }
      }
    }
  }

  /** Evidence in which copies have learned from each other. */
  ChordEvidence shared() {
    float[][] mixed = new float[evidence.steps()][];
    for (int step = 0; step < mixed.length; step++) {
      mixed[step] = evidence.pitchClasses(step);
    }
    for (int bar = 0; bar < copiesOfBar.size(); bar++) {
      mix(bar, mixed);
    }
    return evidence.withPitchClasses(mixed);
  }

  private void mix(int bar, float[][] mixed) {
    int length = length(bar);
    float[][] sums = new float[length][12];
    double weights = 0;
    for (Copy copy : copiesOfBar.get(bar)) {
      if (length(copy.bar()) == length && length > 0) {
        double agreement = (correlation(bar, copy) - DISAGREE) / (AGREE - DISAGREE);
        double weight = Math.max(0, Math.min(1, agreement));
        weights += weight;
        for (int i = 0; i < length; i++) {
          float[] other = evidence.pitchClasses(barSteps[copy.bar()][0] + i);
          for (int c = 0; c < 12; c++) {
            sums[i][(c + copy.semitones() + 24) % 12] += (float) weight * other[c];
          }
        }
      }
    }
    if (weights == 0) {
      return;
    }
    float share = (float) (SHARE_OF_OTHERS * Math.min(1, weights));
    for (int i = 0; i < length; i++) {
      float[] own = evidence.pitchClasses(barSteps[bar][0] + i);
      float[] out = new float[12];
      for (int c = 0; c < 12; c++) {
        float open = share * Math.max(0, 1 - Math.abs(own[c]) / CLEAR);
        out[c] = (1 - open) * own[c] + open * sums[i][c] / (float) weights;
      }
      mixed[barSteps[bar][0] + i] = out;
    }
  }

  private int length(int bar) {
    return barSteps[bar][1] - barSteps[bar][0];
  }

  private double correlation(int bar, Copy copy) {
    double xy = 0;
    double xx = 0;
    double yy = 0;
    double x = 0;
    double y = 0;
    int n = 12 * length(bar);
    for (int i = 0; i < length(bar); i++) {
      float[] own = evidence.pitchClasses(barSteps[bar][0] + i);
      float[] other = evidence.pitchClasses(barSteps[copy.bar()][0] + i);
      for (int c = 0; c < 12; c++) {
        double b = other[Math.floorMod(c - copy.semitones(), 12)];
        x += own[c];
        y += b;
        xy += own[c] * b;
        xx += (double) own[c] * own[c];
        yy += b * b;
      }
    }
    double spread = (xx - x * x / n) * (yy - y * y / n);
    return spread <= 0 ? 0 : (xy - x * y / n) / Math.sqrt(spread);
  }

  /** Bars that are the same music as the bar a step stands in, with their transposition to it. */
  List<int[]> copiesOf(int bar) {
    List<int[]> out = new ArrayList<>();
    if (bar >= 0 && bar < copiesOfBar.size()) {
      for (Copy copy : copiesOfBar.get(bar)) {
        if (length(copy.bar()) == length(bar)) {
          out.add(new int[] {barSteps[copy.bar()][0] - barSteps[bar][0], copy.semitones()});
        }
      }
    }
    return out;
  }
}
