package undersong.estimate.voice;

import java.util.List;
import undersong.feature.FrameMatrix;
import undersong.reading.NoteEvent;

/**
 * How much of what begins near a pitch begins apart from the lead's notes: an accompaniment strikes
 * on its own, a voice that sings with the lead does not.
 */
final class BeginningsApart {
  private static final double CLEAR = 0.4;
  private static final int TOGETHER_FRAMES = 4;
  private static final double AROUND_SECONDS = 3;

  /** A register: the pitch and so many semitones on either side, without the lead's own. */
  private static final int REGISTER_SEMITONES = 2;

  private static final int LEAD_SEMITONES = 1;

  private final FrameMatrix onsets;

  /** Beginnings in all frames before one, bin by bin. */
  private final int[][] all;

  private final int[][] apart;

  BeginningsApart(FrameMatrix onsets, List<NoteEvent> lead) {
    this.onsets = onsets;
    int frames = onsets.frames();
    boolean[] together = new boolean[frames];
    for (NoteEvent note : lead) {
      int at = onsets.clock().frameAt(note.span().startSeconds());
      int last = Math.min(frames - 1, at + TOGETHER_FRAMES);
      for (int frame = Math.max(0, at - TOGETHER_FRAMES); frame <= last; frame++) {
        together[frame] = true;
      }
    }
    all = new int[onsets.bins()][frames + 1];
    apart = new int[onsets.bins()][frames + 1];
    for (int bin = 0; bin < onsets.bins(); bin++) {
      for (int frame = 0; frame < frames; frame++) {
        int begins = begins(frame, bin) ? 1 : 0;
        all[bin][frame + 1] = all[bin][frame] + begins;
        apart[bin][frame + 1] = apart[bin][frame] + (together[frame] ? 0 : begins);
      }
    }
  }

  private boolean begins(int frame, int bin) {
    double here = onsets.at(frame, bin);
    return here > CLEAR
        && here >= onsets.at(Math.max(0, frame - 1), bin)
        && (frame + 1 == onsets.frames() || here > onsets.at(frame + 1, bin));
  }

  /**
   * Share of the beginnings in a pitch's register around a time, one half where there are none
   * (Krichevsky and Trofimov's estimate, so that few beginnings say little).
   */
  double share(double seconds, int bin, int leadBin) {
    int at = onsets.clock().frameAt(seconds);
    int reach = (int) Math.round(AROUND_SECONDS * onsets.clock().framesPerSecond());
    int from = Math.max(0, Math.min(onsets.frames(), at - reach));
    int to = Math.max(from, Math.min(onsets.frames(), at + reach));
    int countAll = 0;
    int countApart = 0;
    int high = Math.min(onsets.bins() - 1, bin + REGISTER_SEMITONES);
    for (int near = Math.max(0, bin - REGISTER_SEMITONES); near <= high; near++) {
      if (Math.abs(near - leadBin) > LEAD_SEMITONES) {
        countAll += all[near][to] - all[near][from];
        countApart += apart[near][to] - apart[near][from];
      }
    }
    return (countApart + 0.5) / (countAll + 1);
  }
}
