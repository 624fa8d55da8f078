package undersong.estimate.dynamics;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
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
  private static final double QUIETEST_LUFS = -60;
  private static final double LAST_SECONDS = 12;
  private static final double FALL_BEGINS_DB = 6;
  private static final double FALL_ENDS_DB = 26;

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
            onsetsPerBeat,
            lastFall(features.loudness().momentaryLufs())));
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

  /** How the sound ends, as {@link Dynamics#lastFall()} has it. */
  private static Optional<Span> lastFall(FrameSeries momentary) {
    int sounding = lastAtLeast(momentary, QUIETEST_LUFS);
    if (sounding < 0) {
      return Optional.empty();
    }
    double loudest = Loudness.SILENT_LUFS;
    int from = sounding - (int) (LAST_SECONDS * momentary.clock().framesPerSecond());
    for (int frame = Math.max(0, from); frame <= sounding; frame++) {
      loudest = Math.max(loudest, momentary.at(frame));
    }
    int start = lastAtLeast(momentary, loudest - FALL_BEGINS_DB);
    int end = lastAtLeast(momentary, loudest - FALL_ENDS_DB);
    boolean cutOff = end >= momentary.frames() - 1;
    return cutOff || end <= start
        ? Optional.empty()
        : Optional.of(
            new Span(momentary.clock().secondsAt(start), momentary.clock().secondsAt(end)));
  }

  private static int lastAtLeast(FrameSeries momentary, double lufs) {
    int frame = momentary.frames() - 1;
    while (frame >= 0 && momentary.at(frame) < lufs) {
      frame--;
    }
    return frame;
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
