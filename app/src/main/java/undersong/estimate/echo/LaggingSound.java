package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import undersong.kernel.GrowingErrorFit;
import undersong.reading.HearingBand;
import undersong.time.Span;

/**
 * What stands nowhere, told apart by when it sounds. Where two sounds meet or one is played twice,
 * it comes and goes with them; a room's part lags behind and falls away exponentially. So the power
 * of what stands nowhere is fitted as a sum of the direct sound at the same time, its mean over
 * three seconds, a floor, and the direct sound of the past, forgotten by 60 dB within the decay
 * time that is tried. No sound needs to end freely for that.
 *
 * <p><b>Cost:</b> O(frames * decays tried) a span.
 */
final class LaggingSound {
  /** Decay times that are tried, in octaves above one second. */
  static final double[] DECAY_OCTAVES = new double[13];

  private static final double SHORTEST_SECONDS = 0.2;
  private static final int ABOUT_FRAMES = (int) (1.5 * DiffuseSound.FRAMES_PER_SECOND);
  private static final int FEWEST = 20;
  private static final double SILENT = 1e-6;

  static {
    Arrays.setAll(DECAY_OCTAVES, i -> Math.log(SHORTEST_SECONDS) / Math.log(2) + i / 3.0);
  }

  private final DiffuseSound sound;
  private final double[][] about = new double[DiffuseSound.BANDS][];
  private final double[][] first = new double[DiffuseSound.BANDS][];

  /** Lagging sound by decay and band, one value a frame. */
  private final double[][][] lagging = new double[DECAY_OCTAVES.length][DiffuseSound.BANDS][];

  private final double[] means = new double[DiffuseSound.BANDS];

  LaggingSound(DiffuseSound sound) {
    this.sound = sound;
    for (int band = 0; band < DiffuseSound.BANDS; band++) {
      double[] direct = sound.direct(band);
      means[band] = Arrays.stream(direct).average().orElse(0);
      about[band] = DiffuseSound.smooth(direct, ABOUT_FRAMES);
      first[band] = DiffuseSound.smooth(sound.diffuse(band), ABOUT_FRAMES);
      for (int d = 0; d < DECAY_OCTAVES.length; d++) {
        lagging[d][band] = lagging(direct, Math.pow(2, DECAY_OCTAVES[d]));
      }
    }
  }

  private static double[] lagging(double[] direct, double decaySeconds) {
    double kept = Math.pow(10, -6 / (decaySeconds * DiffuseSound.FRAMES_PER_SECOND));
    double[] lagging = new double[direct.length];
    for (int t = 1; t < direct.length; t++) {
      lagging[t] = kept * lagging[t - 1] + (1 - kept) * direct[t - 1];
    }
    return lagging;
  }

  /**
   * One span in one band.
   *
   * @param misfit of each decay that was tried, above the best; empty where too little sounds
   * @param lagging power of the lagging part over that of the direct sound, for each decay
   */
  record Fit(List<Double> misfit, List<Double> lagging) {
    static final Fit NOTHING = new Fit(List.of(), List.of());

    Fit {
      misfit = List.copyOf(misfit);
      lagging = List.copyOf(lagging);
    }

    boolean isNothing() {
      return misfit.isEmpty();
    }

    double bestOctaves() {
      return DECAY_OCTAVES[misfit.indexOf(Collections.min(misfit))];
    }
  }

  Fit of(Span span, HearingBand hearingBand) {
    List<int[]> cells = cells(span, hearingBand);
    if (cells.size() < FEWEST) {
      return Fit.NOTHING;
    }
    double[] whole = values(cells, sound::diffuse);
    double[] before = values(cells, band -> first[band]);
    Arrays.setAll(before, i -> (before[i] + whole[i]) / 2);
    double[][] parts = {
      values(cells, sound::direct), values(cells, band -> about[band]), new double[cells.size()], {}
    };
    Arrays.fill(parts[2], 1);
    double[] misfit = new double[DECAY_OCTAVES.length];
    double[] lag = new double[DECAY_OCTAVES.length];
    for (int d = 0; d < misfit.length; d++) {
      double[][] lagged = lagging[d];
      parts[3] = values(cells, band -> lagged[band]);
      GrowingErrorFit.Fit fit = GrowingErrorFit.of(parts, whole, before);
      misfit[d] = fit.deviance();
      lag[d] = fit.weights().get(3);
    }
    double best = Arrays.stream(misfit).min().orElse(0);
    return new Fit(
        Arrays.stream(misfit).map(m -> m - best).boxed().toList(),
        Arrays.stream(lag).boxed().toList());
  }

  /** Band and frame of all that sounds. */
  private List<int[]> cells(Span span, HearingBand hearingBand) {
    int from = Math.max(0, frame(span.startSeconds()));
    int to = Math.min(sound.frames(), frame(span.endSeconds()));
    List<int[]> cells = new ArrayList<>();
    for (int band = 0; band < DiffuseSound.BANDS; band++) {
      double hertz = DiffuseSound.hertz(band);
      if (hertz < hearingBand.bottomHz() || hertz >= hearingBand.topHz()) {
        continue;
      }
      for (int t = from; t < to; t++) {
        if (sound.diffuse(band)[t] > 0 && sound.whole(band)[t] > SILENT * means[band]) {
          cells.add(new int[] {band, t});
        }
      }
    }
    return cells;
  }

  private static int frame(double seconds) {
    return (int) (seconds * DiffuseSound.FRAMES_PER_SECOND);
  }

  private interface ByBand {
    double[] of(int band);
  }

  /** Values of cells in units of their bands' means. */
  private double[] values(List<int[]> cells, ByBand from) {
    double[] values = new double[cells.size()];
    Arrays.setAll(values, i -> from.of(cells.get(i)[0])[cells.get(i)[1]] / means[cells.get(i)[0]]);
    return values;
  }
}
