package undersong.bench.charts;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import undersong.bench.data.Chart;
import undersong.bench.data.NumeralSong;
import undersong.bench.data.NumeralSong.Numeral;
import undersong.bench.metrics.Timed;

/**
 * Techniques as an annotator's numerals and keys state them, read off the written text alone:
 * nothing here asks what the program thinks of a chord. Neighbors of a kind are one occurrence.
 */
final class NumeralTruth {
  /** Keys that hold at least so long are places the music moved to. */
  private static final int LASTING_BARS = 8;

  private final NumeralSong song;
  private final double beatSeconds;

  NumeralTruth(NumeralSong song, double beatSeconds) {
    this.song = song;
    this.beatSeconds = beatSeconds;
  }

  List<Timed<String>> occurrences() {
    List<Timed<String>> all = new ArrayList<>();
    all.addAll(runs("secondary-dominant", n -> n.text().matches("(V|vii).*/(?!I$|i$).*")));
    all.addAll(runs("borrowed-chord", this::borrowed));
    all.addAll(runs("harmonic-minor-dominant", NumeralTruth::raised));
    keys(all);
    return all;
  }

  private static boolean minor(Numeral numeral) {
    return numeral.key().mode().equals("minor");
  }

  /**
   * Chords of the parallel mode by their triads; bII, augmented sixths and the diminished seventh
   * on the leading tone are no mixture.
   */
  private boolean borrowed(Numeral numeral) {
    String text = numeral.text();
    if (minor(numeral)) {
      return text.matches("I(?![IV]).*") && !text.contains("/") && !leadsToFour(numeral);
    }
    return text.matches("(b(III|VI|VII)(?![IVo])|(iv|v|i)(?![iv])|ii[oøh]).*")
        && !text.contains("/");
  }

  private boolean leadsToFour(Numeral numeral) {
    int next = song.numerals().indexOf(numeral) + 1;
    return next < song.numerals().size()
        && song.numerals().get(next).text().matches("(IV|iv)(?![IVio]).*");
  }

  private static boolean raised(Numeral numeral) {
    return minor(numeral)
        && numeral.text().matches("(V(?![I])|vii[oxø]).*")
        && !numeral.text().contains("/");
  }

  private List<Timed<String>> runs(String id, Predicate<Numeral> is) {
    List<Timed<String>> runs = new ArrayList<>();
    double start = Double.NaN;
    for (int i = 0; i < song.numerals().size(); i++) {
      Numeral numeral = song.numerals().get(i);
      boolean last = i + 1 == song.numerals().size();
      if (is.test(numeral)) {
        start = Double.isNaN(start) ? numeral.startBeat() : start;
        if (last || !is.test(song.numerals().get(i + 1))) {
          runs.add(new Timed<>(start * beatSeconds, numeral.endBeat() * beatSeconds, id));
          start = Double.NaN;
        }
      }
    }
    return runs;
  }

  /**
   * Lasting keys: a modulation where the music moves to another tonic that is not home, a lift
   * where it goes up to the end of the song in its second half and sections are known.
   */
  private void keys(List<Timed<String>> all) {
    List<Chart.Bar> bars = song.chart().bars();
    int[] starts = song.chart().barStarts();
    int home = home(bars);
    boolean divided = bars.stream().filter(Chart.Bar::opensSection).count() > 1;
    int from = 0;
    int before = -1;
    for (int i = 1; i <= bars.size(); i++) {
      if (i < bars.size() && tonic(bars, i) == tonic(bars, from)) {
        continue;
      }
      int tonic = tonic(bars, from);
      Timed<String> region =
          new Timed<>(starts[from] * beatSeconds, starts[i] * beatSeconds, "modulation");
      if (before >= 0 && i - from >= LASTING_BARS) {
        int up = Math.floorMod(tonic - before, 12);
        boolean lifted = divided && i == bars.size() && from > bars.size() / 2 && up <= 6;
        if (lifted) {
          all.add(new Timed<>(region.startSeconds(), region.endSeconds(), "key-lift"));
        } else if (tonic != home) {
          all.add(region);
        }
      }
      before = tonic;
      from = i;
    }
  }

  private static int tonic(List<Chart.Bar> bars, int bar) {
    return bars.get(bar).key().tonic();
  }

  private static int home(List<Chart.Bar> bars) {
    int[] count = new int[12];
    bars.forEach(bar -> count[bar.key().tonic()]++);
    int most = 0;
    for (int tonic = 1; tonic < 12; tonic++) {
      most = count[tonic] > count[most] ? tonic : most;
    }
    return most;
  }
}
