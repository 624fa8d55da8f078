package undersong.estimate.meter;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import undersong.estimate.Estimator;
import undersong.feature.Features;
import undersong.reading.Bar;
import undersong.reading.Beats;
import undersong.reading.Candidate;
import undersong.reading.Correction;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Meter;
import undersong.reading.Reading;
import undersong.reading.TimeSignature;
import undersong.time.BeatGrid;
import undersong.time.Span;

/**
 * Estimates bars with a chain over places in the bar: strokes on and around each beat say where
 * bars begin, the return of the rhythm says how long they are, and bar lines hold over the whole
 * song unless much speaks against it. Harmony has no say.
 *
 * <p>Reads BEATS. Cost: linear in the number of beats.
 */
public final class BarChainMeterEstimator implements Estimator<Meter> {
  private static final double STROKE_DELAY_SECONDS = 0.018;
  private static final List<Integer> SIMPLE = List.of(3, 4, 5, 7);
  private static final List<Integer> COMPOUND = List.of(2, 3, 4);
  private static final double RECURRENCE_WORTH = 3;
  private static final double CUT_COST = 14;
  private static final double CHANGE_COST = 16;

  /** Dotted quarters are hardly ever quicker (110 a minute); common practice, no source. */
  private static final double QUICK_BEAT_SECONDS = 60 / 110.0;

  /** With pins, the program's own ear counts less, so that neighbors follow the listener. */
  private static final double PINNED_SHARE = 0.3;

  /** Neighboring beats say much the same, so a beat's evidence is worth only part of its own. */
  private static final double CERTAINTY = 0.25;

  @Override
  public Derived<Meter> estimate(Features features, Reading earlier, Corrections corrections) {
    Beats beats = earlier.get(Facet.BEATS);
    BeatGrid grid = beats.grid();
    MeterPins pins = MeterPins.of(corrections, grid, features.durationSeconds());
    if (grid.isEmpty()) {
      return new Derived<>(new Meter(List.of(), 1, List.of()), pins.unplaced());
    }
    Optional<HeardBars> heard = features.heard().map(HeardBars::new);
    boolean compound =
        heard.map(ear -> ear.compoundShare() > 0.5).orElse(beats.tatumsPerBeat() == 3);
    Set<Integer> allowed = new TreeSet<>(compound ? COMPOUND : SIMPLE);
    allowed.addAll(pins.lengths());
    int[] lengths = allowed.stream().mapToInt(Integer::intValue).toArray();
    BarAccents accents = BarAccents.of(features, grid, STROKE_DELAY_SECONDS);
    double share = pins.isEmpty() ? 1 : PINNED_SHARE;
    double[][][] worth = worth(accents, lengths, share);
    heard.ifPresent(ear -> add(ear, grid, lengths, compound, share, worth));
    BarChain chain = new BarChain(lengths, CUT_COST, CHANGE_COST, pins.borders());
    double[][][] posterior =
        new BarChain(lengths, CUT_COST * CERTAINTY, CHANGE_COST * CERTAINTY, Set.of())
            .posterior(scaled(worth, CERTAINTY));
    pins.price(worth, lengths);
    BarChain.Place[] places = chain.decode(worth);
    int[] beatInBar = new int[places.length];
    int[] length = new int[places.length];
    for (int beat = 0; beat < places.length; beat++) {
      beatInBar[beat] = places[beat].beatInBar();
      length[beat] = lengths[places[beat].lengthIndex()];
    }
    List<Correction> unplaced = new ArrayList<>(pins.unplaced());
    unplaced.addAll(pins.broken(beatInBar, length));
    boolean inThrees = compound && !isQuickWaltz(grid, length);
    Meter meter =
        new Meter(
            bars(grid, beatInBar, length, pins, inThrees),
            pins.isEmpty() ? probability(posterior, places) : 1,
            others(posterior, lengths, inThrees, places));
    return new Derived<>(meter, unplaced);
  }

  /**
   * Three quick beats to a bar: what the ear hears divided in three is the bar, not the beat. It
   * knows no bars of three beats that each divide in three.
   */
  private static boolean isQuickWaltz(BeatGrid grid, int[] length) {
    long threes = Arrays.stream(length).filter(beats -> beats == 3).count();
    double seconds = grid.secondsAt(grid.size() - 1) - grid.secondsAt(0);
    return 2 * threes > length.length && seconds < QUICK_BEAT_SECONDS * (grid.size() - 1);
  }

  /** Worth of each place on each beat: what the strokes say, and how the rhythm returns. */
  private static double[][][] worth(BarAccents accents, int[] lengths, double share) {
    int beats = accents.beats();
    double[][] traits = DownbeatTraits.of(accents);
    double[][] logOdds = new double[lengths.length][];
    double[][] recurrence = new double[lengths.length][];
    for (int i = 0; i < lengths.length; i++) {
      logOdds[i] = BarEvidence.logOdds(traits, lengths[i]);
      recurrence[i] = Recurrence.of(accents, lengths[i]);
    }
    double[][][] worth = new double[beats][lengths.length][];
    for (int beat = 0; beat < beats; beat++) {
      for (int i = 0; i < lengths.length; i++) {
        worth[beat][i] = new double[lengths[i]];
        for (int place = 0; place < lengths[i]; place++) {
          double odds = place == 0 ? logOdds[i][beat] : -logOdds[i][beat];
          double heard = -Math.log1p(Math.exp(-odds));
          worth[beat][i][place] =
              share * (heard + RECURRENCE_WORTH * recurrence[i][beat] / lengths.length);
        }
      }
    }
    return worth;
  }

  /** What the trained ear says, beside the strokes. */
  private static void add(
      HeardBars ear,
      BeatGrid grid,
      int[] lengths,
      boolean compound,
      double share,
      double[][][] worth) {
    double[] odds = ear.logOdds(grid);
    double[][] logLengths = ear.logLengths(grid, lengths, compound);
    for (int beat = 0; beat < worth.length; beat++) {
      for (int i = 0; i < lengths.length; i++) {
        for (int place = 0; place < lengths[i]; place++) {
          double heard = -Math.log1p(Math.exp(place == 0 ? -odds[beat] : odds[beat]));
          worth[beat][i][place] += share * (heard + logLengths[beat][i]);
        }
      }
    }
  }

  private static double[][][] scaled(double[][][] worth, double factor) {
    double[][][] scaled = new double[worth.length][][];
    for (int beat = 0; beat < worth.length; beat++) {
      scaled[beat] = new double[worth[beat].length][];
      for (int i = 0; i < worth[beat].length; i++) {
        scaled[beat][i] = worth[beat][i].clone();
        for (int place = 0; place < scaled[beat][i].length; place++) {
          scaled[beat][i][place] *= factor;
        }
      }
    }
    return scaled;
  }

  private static List<Bar> bars(
      BeatGrid grid, int[] beatInBar, int[] length, MeterPins pins, boolean compound) {
    List<Bar> bars = new ArrayList<>();
    int number = beatInBar[0] == 0 ? 1 : 0;
    int first = 0;
    for (int beat = 1; beat <= beatInBar.length; beat++) {
      boolean end = beat == beatInBar.length;
      if (end || beatInBar[beat] == 0) {
        boolean partial = end || (first == 0 && beatInBar[0] != 0);
        int written = partial ? length[first] : beat - first;
        TimeSignature signature = new TimeSignature(written, pins.compoundAt(first, compound));
        Span span = new Span(grid.secondsAt(first), grid.secondsAtPosition(beat));
        bars.add(new Bar(number++, first, beat - first, signature, span));
        first = beat;
      }
    }
    return bars;
  }

  /** Mean probability of the downbeats that were chosen. */
  private static double probability(double[][][] posterior, BarChain.Place[] places) {
    double sum = 0;
    int downbeats = 0;
    for (int beat = 0; beat < places.length; beat++) {
      if (places[beat].beatInBar() == 0) {
        for (double[] length : posterior[beat]) {
          sum += length[0];
        }
        downbeats++;
      }
    }
    return downbeats == 0 ? 0 : Math.min(1, sum / downbeats);
  }

  private static List<Candidate<TimeSignature>> others(
      double[][][] posterior, int[] lengths, boolean compound, BarChain.Place[] places) {
    int[] chosen = new int[lengths.length];
    double[] shares = new double[lengths.length];
    for (int beat = 0; beat < places.length; beat++) {
      chosen[places[beat].lengthIndex()]++;
      for (int i = 0; i < lengths.length; i++) {
        for (double probability : posterior[beat][i]) {
          shares[i] += probability / places.length;
        }
      }
    }
    int main = 0;
    for (int i = 1; i < lengths.length; i++) {
      main = chosen[i] > chosen[main] ? i : main;
    }
    List<Candidate<TimeSignature>> others = new ArrayList<>();
    for (int i = 0; i < lengths.length; i++) {
      if (i != main && shares[i] >= 0.01) {
        TimeSignature signature = new TimeSignature(lengths[i], compound);
        others.add(new Candidate<>(signature, Math.min(1, shares[i])));
      }
    }
    others.sort(Comparator.comparing(Candidate<TimeSignature>::probability).reversed());
    return others;
  }
}
