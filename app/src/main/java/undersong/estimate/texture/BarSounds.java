package undersong.estimate.texture;

import java.util.ArrayList;
import java.util.List;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.reading.Bar;
import undersong.reading.BarTexture;
import undersong.reading.HearingBand;

/** Levels and spectral shape of each bar: means of the features, weighted by power. */
final class BarSounds {
  private static final double FLOOR_DB = -120;
  private static final int WHOLE = 6;

  private BarSounds() {}

  static List<BarTexture> of(Features features, List<Bar> bars, List<Double> onsetsPerBeat) {
    List<BarTexture> sounds = new ArrayList<>();
    for (int i = 0; i < bars.size(); i++) {
      sounds.add(of(features, bars.get(i), i < onsetsPerBeat.size() ? onsetsPerBeat.get(i) : 0));
    }
    return sounds;
  }

  private static BarTexture of(Features features, Bar bar, double onsetsPerBeat) {
    FrameMatrix mid = features.bandLevelsDb();
    FrameMatrix side = features.sideLevelsDb();
    int from = Math.max(0, mid.clock().frameAt(bar.span().startSeconds()));
    int end = Math.min(mid.frames(), mid.clock().frameAt(bar.span().endSeconds()));
    double[] bands = new double[HearingBand.values().length];
    double weight = 0;
    double centroid = 0;
    double rollOff = 0;
    double noise = 0;
    for (int frame = from; frame < end; frame++) {
      for (int band = 0; band < bands.length; band++) {
        bands[band] += (power(mid.at(frame, band)) + power(side.at(frame, band))) / (end - from);
      }
      double here = power(mid.at(frame, WHOLE));
      if (frame < features.centroidHz().frames()) {
        weight += here;
        centroid += here * features.centroidHz().at(frame);
        rollOff += here * features.rollOffHz().at(frame);
        noise += here * features.flatness().at(frame);
      }
    }
    List<Double> levels = new ArrayList<>();
    for (double band : bands) {
      levels.add(rounded(band <= 1e-12 ? FLOOR_DB : 10 * Math.log10(band)));
    }
    return weight <= 1e-12
        ? new BarTexture(onsetsPerBeat, levels, 0, 0, 0)
        : new BarTexture(
            onsetsPerBeat,
            levels,
            rounded(centroid / weight),
            rounded(rollOff / weight),
            Math.round(1e4 * noise / weight) / 1e4);
  }

  private static double power(double decibels) {
    return decibels <= FLOOR_DB ? 0 : Math.pow(10, decibels / 10);
  }

  private static double rounded(double value) {
    return Math.round(value * 10) / 10.0;
  }
}
