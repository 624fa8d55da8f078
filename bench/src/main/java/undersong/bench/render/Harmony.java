package undersong.bench.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import undersong.bench.data.Chart;
import undersong.bench.metrics.ChordCode;

/**
 * The chords of a chart at the moment the band plays them.
 *
 * @param playedBeat when it arrives; half a beat before {@code writtenBeat} where it comes early
 */
record Harmony(double playedBeat, double endBeat, double writtenBeat, ChordCode chord) {

  /**
   * @param earlyShare how many of the changes that fall on a beat come half a beat early
   */
  static List<Harmony> play(Chart chart, double earlyShare, Random random) {
    List<Double> written = new ArrayList<>();
    List<ChordCode> chords = new ArrayList<>();
    int[] starts = chart.barStarts();
    for (int b = 0; b < chart.bars().size(); b++) {
      for (Chart.Change change : chart.bars().get(b).changes()) {
        int last = chords.size() - 1;
        if (last < 0 || !chords.get(last).equals(change.chord())) {
          written.add(starts[b] + change.beat());
          chords.add(change.chord());
        }
      }
    }
    List<Double> played = new ArrayList<>();
    for (int i = 0; i < written.size(); i++) {
      double before = i == 0 ? 0 : written.get(i) - written.get(i - 1);
      boolean onBeat = Math.abs(written.get(i) - Math.rint(written.get(i))) < 1e-6;
      boolean early = before >= 1.5 && onBeat && random.nextDouble() < earlyShare;
      played.add(early ? written.get(i) - 0.5 : written.get(i));
    }
    List<Harmony> harmony = new ArrayList<>();
    double end = starts[starts.length - 1];
    for (int i = 0; i < chords.size(); i++) {
      double until = i + 1 < chords.size() ? played.get(i + 1) : end;
      harmony.add(new Harmony(played.get(i), until, written.get(i), chords.get(i)));
    }
    return harmony;
  }

  double beats() {
    return endBeat - playedBeat;
  }

  /** Pitch classes the upper parts play: all but a bass that is foreign to the chord. */
  List<Integer> upperPitchClasses() {
    List<Integer> pitchClasses = new ArrayList<>();
    for (int s = 0; s < 12; s++) {
      boolean foreign = s == chord.bass() && s != 0 && s != 3 && s != 4 && s != 7;
      if ((chord.bits() & 1 << s) != 0 && !foreign) {
        pitchClasses.add((chord.root() + s) % 12);
      }
    }
    return pitchClasses;
  }

  static Harmony at(List<Harmony> harmony, double beat) {
    Harmony found = harmony.get(0);
    for (Harmony h : harmony) {
      if (h.playedBeat() <= beat + 1e-6) {
        found = h;
      }
    }
    return found;
  }
}
