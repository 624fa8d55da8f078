package undersong.estimate.space;

import java.util.ArrayList;
import java.util.List;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.reading.Bar;
import undersong.reading.BarWidth;
import undersong.reading.HearingBand;
import undersong.time.Span;

/** How wide stretches sound, from the powers of both channels. */
final class WidthMeter {
  private static final double FLOOR_DB = -120;
  private static final double TINY = 1e-12;

  private final StereoPowers powers;

  WidthMeter(StereoPowers powers) {
    this.powers = powers;
  }

  List<BarWidth> bars(List<Bar> bars) {
    return bars.stream().map(bar -> over(bar.span())).toList();
  }

  private BarWidth over(Span span) {
    List<BarWidth.BandWidth> bands = new ArrayList<>();
    double[] all = new double[3];
    for (HearingBand band : HearingBand.values()) {
      double[] sums = sums(span, band);
      for (int i = 0; i < 3; i++) {
        all[i] += sums[i];
      }
      bands.add(new BarWidth.BandWidth(sideToMidDb(sums), correlation(sums)));
    }
    return new BarWidth(sideToMidDb(all), bands);
  }

  /** See {@link undersong.reading.Space#foldDownLossDb}. */
  double foldDownLossDb(double durationSeconds) {
    double[] all = new double[3];
    Span whole = new Span(0, durationSeconds);
    for (HearingBand band : HearingBand.values()) {
      double[] sums = sums(whole, band);
      for (int i = 0; i < 3; i++) {
        all[i] += sums[i];
      }
    }
    double both = (all[0] + all[1]) / 2;
    double mid = (all[0] + all[1] + 2 * all[2]) / 4;
    return both <= TINY ? 0 : rounded(10 * Math.log10(both / Math.max(mid, TINY * both)) - 3.01);
  }

  private double[] sums(Span span, HearingBand band) {
    double[] sums = new double[3];
    int from = powers.frameAt(span.startSeconds());
    int end = powers.frameAt(span.endSeconds());
    for (int bin = StereoImage.binOf(band.bottomHz()); bin < StereoImage.BINS; bin++) {
      double middle = (StereoImage.edgeHz(bin) + StereoImage.edgeHz(bin + 1)) / 2;
      if (middle >= band.bottomHz() && middle < band.topHz()) {
        powers.addTo(sums, from, end, bin);
      }
    }
    return sums;
  }

  private static double sideToMidDb(double[] sums) {
    double mid = sums[0] + sums[1] + 2 * sums[2];
    double side = sums[0] + sums[1] - 2 * sums[2];
    if (side <= TINY * (mid + side) || mid + side <= TINY) {
      return FLOOR_DB;
    }
    double decibels = 10 * Math.log10(side / Math.max(mid, TINY));
    return rounded(Math.max(FLOOR_DB, Math.min(-FLOOR_DB, decibels)));
  }

  private static double correlation(double[] sums) {
    double product = Math.sqrt(sums[0] * sums[1]);
    return product <= TINY ? 1 : rounded(Math.max(-1, Math.min(1, sums[2] / product)));
  }

  private static double rounded(double value) {
    return Math.round(value * 100) / 100.0;
  }
}
