package undersong.notation;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import undersong.reading.NoteEvent;

/**
 * Puts notes on the grid of a page: which division each beat is written in, and where on it each
 * note begins and ends.
 *
 * <p>Every beat takes the division that explains its onsets with the least sum of squared misses
 * and of a price for being intricate; a dynamic programme over the beats keeps two notes off one
 * place, an onset just before a beat included. Divisions that many beats of the song need become
 * cheaper in a second round. The trade of fit against simplicity follows A. T. Cemgil, P. Desain,
 * B. Kappen, "Rhythm quantization for transcription", Computer Music Journal 24, 2000 (from
 * memory); prices are our own.
 *
 * <p><b>Cost:</b> linear in beats and notes.
 */
final class Quantiser {
  private static final int[] SIMPLE = {1, 2, 4, 3, 8, 6};
  private static final double[] SIMPLE_PRICE = {0, 0.8, 2.0, 2.4, 5.5, 6};
  private static final int[] COMPOUND = {1, 3, 6, 2, 12};
  private static final double[] COMPOUND_PRICE = {0, 0.4, 1.6, 3.4, 6};
  private static final double HAND_SECONDS = 0.028;
  private static final double LEAST_SPREAD_BEATS = 0.04;
  private static final double IMPOSSIBLE = 1e6;
  private static final double SWING_FROM = 1.35;

  /** A rest shorter than an eighth is breath or touch, and is not written. */
  private static final int LEAST_REST_TICKS = 12;

  /** Nor is one that takes no more than this share of the way to the next note. */
  private static final double LEAST_REST_SHARE = 0.5;

  /**
   * A note on paper.
   *
   * @param startTick counted from the first bar on paper
   * @param endTick later than the start
   * @param heard its place among the notes given
   */
  record Placed(int startTick, int endTick, int heard) {}

  /**
   * @param notes in order
   * @param tripletBeats by beat on paper, whether it is divided in three against its nature
   */
  record Result(List<Placed> notes, List<Boolean> tripletBeats) {}

  private final TickGrid grid;
  private final boolean[] compound;
  private final int[] beatTicks;
  private final double swingRatio;

  Quantiser(TickGrid grid, double swingRatio) {
    this.grid = grid;
    this.beatTicks = grid.beatTicks();
    this.swingRatio = swingRatio;
    this.compound = new boolean[grid.beats()];
    int beat = 0;
    for (TickGrid.PaperBar bar : grid.bars()) {
      for (int i = 0; i < bar.bar().beats(); i++) {
        compound[beat++] = bar.bar().signature().compound();
      }
    }
  }

  static boolean isSwing(double ratio) {
    return ratio >= SWING_FROM;
  }

  /** Notes that lie outside the bars are left out. */
  Result quantise(List<NoteEvent> notes) {
    int beats = compound.length;
    List<List<Integer>> inBeat = new ArrayList<>();
    for (int i = 0; i < beats; i++) {
      inBeat.add(new ArrayList<>());
    }
    for (int n = 0; n < notes.size(); n++) {
      double at = grid.beatAt(notes.get(n).span().startSeconds());
      int beat = (int) Math.floor(Math.max(at, at > -0.25 ? 0 : at));
      if (beat >= 0 && beat < beats) {
        inBeat.get(beat).add(n);
      }
    }
    int[] divisions = new int[beats];
    int[] starts = new int[notes.size()];
    Arrays.fill(starts, -1);
    choose(notes, inBeat, SIMPLE_PRICE, divisions, starts);
    choose(notes, inBeat, learnt(inBeat, divisions), divisions, starts);
    List<Boolean> triplets = new ArrayList<>();
    for (int i = 0; i < beats; i++) {
      triplets.add(!compound[i] && divisions[i] % 3 == 0);
    }
    return new Result(lengths(notes, divisions, starts), triplets);
  }

  /** Prices of a second round: what many beats of the song need is not intricate in it. */
  private double[] learnt(List<List<Integer>> inBeat, int[] divisions) {
    int threes = 0;
    int divided = 0;
    for (int i = 0; i < divisions.length; i++) {
      if (!compound[i] && divisions[i] > 1 && !inBeat.get(i).isEmpty()) {
        divided++;
        threes += divisions[i] % 3 == 0 ? 1 : 0;
      }
    }
    double share = divided == 0 ? 0 : (double) threes / divided;
    double[] prices = SIMPLE_PRICE.clone();
    prices[3] = share > 0.5 ? 0.8 : share < 0.08 ? 3.2 : SIMPLE_PRICE[3];
    return prices;
  }

  /** The cheapest division of every beat, and the tick of every onset. */
  private void choose(
      List<NoteEvent> notes,
      List<List<Integer>> inBeat,
      double[] simple,
      int[] divisions,
      int[] starts) {
    int beats = compound.length;
    // By beat and by whether the beat's own place is taken by a note from before.
    double[][] cost = new double[beats + 1][2];
    Fit[][] best = new Fit[beats][2];
    for (int i = beats - 1; i >= 0; i--) {
      for (int taken = 0; taken < 2; taken++) {
        cost[i][taken] = Double.POSITIVE_INFINITY;
        int[] options = compound[i] ? COMPOUND : SIMPLE;
        double[] prices = compound[i] ? COMPOUND_PRICE : simple;
        for (int o = 0; o < options.length; o++) {
          Fit fit = fit(notes, inBeat.get(i), i, options[o], taken == 1);
          double total = prices[o] + fit.cost() + cost[i + 1][fit.reachesNext() ? 1 : 0];
          if (total < cost[i][taken]) {
            cost[i][taken] = total;
            best[i][taken] = fit;
          }
        }
      }
    }
    int taken = 0;
    for (int i = 0; i < beats; i++) {
      Fit fit = best[i][taken];
      divisions[i] = fit.division();
      int unit = (beatTicks[i + 1] - beatTicks[i]) / fit.division();
      for (int k = 0; k < fit.places().size(); k++) {
        starts[inBeat.get(i).get(k)] = beatTicks[i] + unit * fit.places().get(k);
      }
      taken = fit.reachesNext() ? 1 : 0;
    }
  }

  /** Onsets of one beat on one division. */
  private record Fit(int division, List<Integer> places, double cost) {
    boolean reachesNext() {
      return !places.isEmpty() && places.get(places.size() - 1) == division;
    }
  }

  private Fit fit(
      List<NoteEvent> notes, List<Integer> inBeat, int beat, int division, boolean taken) {
    List<Integer> places = new ArrayList<>();
    double cost = 0;
    int free = taken ? 1 : 0;
    double spread = Math.max(LEAST_SPREAD_BEATS, HAND_SECONDS / grid.beatSeconds(beat));
    for (int k = 0; k < inBeat.size(); k++) {
      double raw = grid.beatAt(notes.get(inBeat.get(k)).span().startSeconds()) - beat;
      double at = division % 3 == 0 || compound[beat] ? raw : straightened(raw);
      int left = inBeat.size() - 1 - k;
      int place = (int) Math.round(at * division);
      // Later notes of the beat need places too.
      place = Math.max(free, Math.min(place, division - left));
      if (place > division) {
        cost += IMPOSSIBLE;
        place = division;
      }
      double miss = (at - (double) place / division) / spread;
      cost += miss * miss / 2;
      places.add(place);
      free = place + 1;
    }
    return new Fit(division, places, cost);
  }

  /** Where in a beat an onset would fall if the song did not swing. */
  private double straightened(double share) {
    if (!isSwing(swingRatio)) {
      return share;
    }
    double longer = swingRatio / (1 + swingRatio);
    return share < longer ? share / longer / 2 : 0.5 + (share - longer) / (1 - longer) / 2;
  }

  private List<Placed> lengths(List<NoteEvent> notes, int[] divisions, int[] starts) {
    List<Placed> placed = new ArrayList<>();
    int end = beatTicks[beatTicks.length - 1];
    for (int n = 0; n < notes.size(); n++) {
      if (starts[n] < 0 || starts[n] >= end) {
        continue;
      }
      int next = end;
      for (int m = n + 1; m < notes.size() && next == end; m++) {
        next = starts[m] > starts[n] ? starts[m] : end;
      }
      boolean clash = !placed.isEmpty() && placed.get(placed.size() - 1).startTick() == starts[n];
      if (!clash) {
        placed.add(new Placed(starts[n], ending(notes.get(n), divisions, starts[n], next, end), n));
      }
    }
    return placed;
  }

  private int ending(NoteEvent note, int[] divisions, int start, int next, int end) {
    double at =
        Math.max(0, Math.min(divisions.length - 1e-6, grid.beatAt(note.span().endSeconds())));
    int beat = (int) at;
    int division = Math.max(divisions[beat], compound[beat] ? 3 : 2);
    int unit = (beatTicks[beat + 1] - beatTicks[beat]) / division;
    double share = division % 3 == 0 || compound[beat] ? at - beat : straightened(at - beat);
    int raw = beatTicks[beat] + unit * (int) Math.round(share * division);
    int least = start + Math.min(unit, 6);
    int stop = Math.min(next, Math.max(raw, least));
    int gap = next - stop;
    boolean breath =
        gap < LEAST_REST_TICKS
            || (gap < NoteValue.QUARTER.ticks() && gap <= LEAST_REST_SHARE * (next - start));
    if (next < end && breath && next - start <= 96) {
      return next;
    }
    return next == end && gap < LEAST_REST_TICKS ? end : onGrid(stop, start, next, divisions);
  }

  /** An end within a beat that the beat's own division can write. */
  private int onGrid(int stop, int start, int next, int[] divisions) {
    int beat = 0;
    while (beat + 1 < beatTicks.length - 1 && beatTicks[beat + 1] <= stop) {
      beat++;
    }
    int unit =
        (beatTicks[beat + 1] - beatTicks[beat]) / Math.max(divisions[beat], compound[beat] ? 3 : 2);
    int within = stop - beatTicks[beat];
    int rounded = beatTicks[beat] + unit * (int) Math.round((double) within / unit);
    return rounded > start ? Math.min(rounded, next) : next;
  }
}
