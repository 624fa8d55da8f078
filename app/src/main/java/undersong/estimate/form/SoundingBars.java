package undersong.estimate.form;

import java.util.Arrays;
import java.util.HashSet;
import java.util.Set;
import undersong.feature.FrameMatrix;
import undersong.time.Span;

/**
 * Where the music of a recording begins, and which bars at its edges are no section of their own:
 * silence before the first note, and a last chord ringing out (common practice, no source).
 */
final class SoundingBars {
  /** Under the usual level of the song's bars. */
  private static final double SILENT_BELOW_DB = 25;

  private static final double RINGING_BELOW_DB = 10;

  /** A longer quiet end is a section. */
  private static final int MOST_BARS = 3;

  private final FrameMatrix levelsDb;
  private final double[] levels;
  private final double usual;

  /**
   * @param levelsDb the last bin is the level of the whole
   */
  SoundingBars(FrameMatrix levelsDb, BarSpans spans) {
    this.levelsDb = levelsDb;
    levels = spans.spans().stream().mapToDouble(span -> level(levelsDb, span)).toArray();
    double[] sorted = levels.clone();
    Arrays.sort(sorted);
    usual = sorted[sorted.length / 2];
  }

  /** When the first sound is heard; 0 where that cannot be told. */
  double beginSeconds() {
    int whole = levelsDb.bins() - 1;
    int frame = 0;
    while (frame < levelsDb.frames() && levelsDb.at(frame, whole) < usual - SILENT_BELOW_DB) {
      frame++;
    }
    return frame == levelsDb.frames() ? 0 : Math.max(0, levelsDb.clock().secondsAt(frame - 0.5));
  }

  /** Bars with which no section begins: those that follow a silent one at the beginning. */
  Set<Integer> noStarts() {
    Set<Integer> none = new HashSet<>();
    for (int bar = 0; bar < most() && levels[bar] < usual - SILENT_BELOW_DB; bar++) {
      none.add(bar + 1);
    }
    return none;
  }

  /** Bars up to the last that is more than a chord ringing out. */
  int untilRinging() {
    int end = levels.length;
    while (end > levels.length - most() && levels[end - 1] < usual - RINGING_BELOW_DB) {
      end--;
    }
    return end;
  }

  private int most() {
    return Math.min(MOST_BARS, (levels.length - 1) / 2);
  }

  /** Mean power of a bar in dB. */
  private static double level(FrameMatrix levelsDb, Span span) {
    int whole = levelsDb.bins() - 1;
    int first = Math.max(0, levelsDb.clock().frameAt(span.startSeconds()));
    int end = Math.min(levelsDb.frames(), levelsDb.clock().frameAt(span.endSeconds()));
    double power = 0;
    for (int frame = first; frame < end; frame++) {
      power += Math.pow(10, levelsDb.at(frame, whole) / 10);
    }
    return 10 * Math.log10(power / Math.max(1, end - first) + 1e-12);
  }
}
