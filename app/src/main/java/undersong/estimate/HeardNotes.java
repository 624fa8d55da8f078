package undersong.estimate;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;

/**
 * Every note that the trained ear heard begin, whoever plays it.
 *
 * <p><b>In:</b> its note activations. <b>Out:</b> notes by onset; notes of one pitch do not
 * overlap. <b>Silence:</b> none. <b>Cost:</b> O(frames * 88).
 */
public final class HeardNotes {
  private static final int LOWEST_MIDI = 21;
  private static final float ONSET_LIMIT = 0.35f;
  private static final float SUSTAIN_LIMIT = 0.3f;
  private static final double SHORTEST_SECONDS = 0.06;

  private HeardNotes() {}

  /**
   * @param strength the ear's probability of the onset
   */
  public record HeardNote(double startSeconds, double endSeconds, int midiPitch, double strength) {
    public double hertz() {
      return 440 * Math.pow(2, (midiPitch - 69) / 12.0);
    }
  }

  public static List<HeardNote> of(EarActivations ear) {
    FrameMatrix onset = ear.head(EarHead.NOTE_ONSET);
    FrameMatrix sustain = ear.head(EarHead.NOTE_SUSTAIN);
    List<HeardNote> notes = new ArrayList<>();
    for (int bin = 0; bin < onset.bins(); bin++) {
      int begin = -1;
      for (int frame = 1; frame < onset.frames() - 1; frame++) {
        float here = onset.at(frame, bin);
        boolean begins =
            here >= ONSET_LIMIT
                && here >= onset.at(frame - 1, bin)
                && here > onset.at(frame + 1, bin);
        if (begin >= 0 && (begins || !sounds(onset, sustain, frame, begin, bin))) {
          add(notes, onset, begin, frame, bin);
          begin = -1;
        }
        if (begins) {
          begin = frame;
        }
      }
      if (begin >= 0) {
        add(notes, onset, begin, onset.frames(), bin);
      }
    }
    notes.sort(
        Comparator.comparingDouble(HeardNote::startSeconds).thenComparing(HeardNote::midiPitch));
    return notes;
  }

  private static boolean sounds(
      FrameMatrix onset, FrameMatrix sustain, int frame, int begin, int bin) {
    double seconds = onset.clock().secondsAt(frame);
    if (seconds - onset.clock().secondsAt(begin) < SHORTEST_SECONDS) {
      return true;
    }
    int held = Math.min(sustain.frames() - 1, sustain.clock().frameAt(seconds));
    return sustain.at(held, bin) >= SUSTAIN_LIMIT;
  }

  private static void add(List<HeardNote> notes, FrameMatrix onset, int begin, int end, int bin) {
    notes.add(
        new HeardNote(
            onset.clock().secondsAt(begin),
            onset.clock().secondsAt(end),
            LOWEST_MIDI + bin,
            onset.at(begin, bin)));
  }
}
