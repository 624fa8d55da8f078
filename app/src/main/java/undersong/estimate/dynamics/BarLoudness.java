package undersong.estimate.dynamics;

import java.util.ArrayList;
import java.util.List;
import undersong.estimate.Estimator;
import undersong.feature.Features;
import undersong.feature.FrameSeries;
import undersong.feature.Loudness;
import undersong.reading.Bar;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Dynamics;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.time.Span;

/**
 * Loudness and onset density of each bar. Loudness is the mean power of the momentary loudness
 * (ITU-R BS.1770) within the bar, in LUFS; -120 in silence. An onset is a peak of onset strength
 * that stands above both neighbors and twice the song's median.
 */
public final class BarLoudness implements Estimator<Dynamics> {
  @Override
  public Derived<Dynamics> estimate(Features features, Reading earlier, Corrections corrections) {
    FrameSeries onsets = features.onsetStrength();
    float limit = onsetLimit(onsets);
    List<Double> lufs = new ArrayList<>();
    List<Double> onsetsPerBeat = new ArrayList<>();
    for (Bar bar : earlier.get(Facet.METER).bars()) {
      lufs.add(meanLufs(features.loudness().momentaryLufs(), bar.span()));
      onsetsPerBeat.add((double) countOnsets(onsets, limit, bar.span()) / bar.beats());
    }
    return Derived.of(
        new Dynamics(
            features.loudness().integratedLufs(),
            features.loudness().rangeLu(),
            lufs,
            onsetsPerBeat));
  }

  private static double meanLufs(FrameSeries momentary, Span span) {
    int first = Math.max(0, momentary.clock().frameAt(span.startSeconds()));
    int end = Math.min(momentary.frames(), momentary.clock().frameAt(span.endSeconds()));
    double power = 0;
    for (int frame = first; frame < end; frame++) {
      power += Math.pow(10, momentary.at(frame) / 10.0);
    }
    return end > first
        ? Math.max(Loudness.SILENT_LUFS, 10 * Math.log10(power / (end - first)))
        : Loudness.SILENT_LUFS;
  }

  private static float onsetLimit(FrameSeries onsets) {
    float[] sorted = onsets.toArray();
    java.util.Arrays.sort(sorted);
    return sorted.length == 0 ? 0 : Math.max(1e-6f, 2 * sorted[sorted.length / 2]);
  }

  private static int countOnsets(FrameSeries onsets, float limit, Span span) {
    int first = Math.max(1, onsets.clock().frameAt(span.startSeconds()));
    int end = Math.min(onsets.frames() - 1, onsets.clock().frameAt(span.endSeconds()));
    int count = 0;
    for (int frame = first; frame < end; frame++) {
      float here = onsets.at(frame);
      if (here > limit && here >= onsets.at(frame - 1) && here > onsets.at(frame + 1)) {
        count++;
      }
    }
    return count;
  }
}
