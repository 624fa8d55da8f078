package undersong.estimate.repeat;

import java.util.Optional;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.time.Span;

/**
 * How much of a note the ear heard somewhere, whether or not it was taken for a note there: what
 * was only just missed is not told as left out. Without a trained ear nothing was heard beside the
 * notes of the reading.
 */
final class NotePresence {
  private static final int LOWEST_MIDI = 21;
  private static final double ONSET_TOLERANCE_SECONDS = 0.08;
  private static final double LONGEST_SECONDS = 1;

  private final Optional<FrameMatrix> onsets;
  private final Optional<FrameMatrix> sustains;

  NotePresence(Features features) {
    this.onsets = features.heard().map(ear -> ear.head(EarHead.NOTE_ONSET));
    this.sustains = features.heard().map(ear -> ear.head(EarHead.NOTE_SUSTAIN));
  }

  /** How much of its beginning was heard: from 0, nothing, to 1. */
  double begins(Span span, double midiPitch) {
    int bin = (int) Math.round(midiPitch) - LOWEST_MIDI;
    if (onsets.isEmpty() || bin < 0 || bin >= onsets.get().bins()) {
      return 0;
    }
    FrameMatrix matrix = onsets.get();
    int first = matrix.clock().frameAt(span.startSeconds() - ONSET_TOLERANCE_SECONDS);
    int last = matrix.clock().frameAt(span.startSeconds() + ONSET_TOLERANCE_SECONDS);
    double onset = 0;
    for (int f = Math.max(0, first); f <= Math.min(last, matrix.frames() - 1); f++) {
      onset = Math.max(onset, matrix.at(f, bin));
    }
    return onset;
  }

  /** How much of it was heard. */
  double strength(Span span, double midiPitch) {
    int bin = (int) Math.round(midiPitch) - LOWEST_MIDI;
    if (sustains.isEmpty() || bin < 0 || bin >= sustains.get().bins()) {
      return 0;
    }
    FrameMatrix matrix = sustains.get();
    double end = Math.min(span.endSeconds(), span.startSeconds() + LONGEST_SECONDS);
    int from = Math.max(0, matrix.clock().frameAt(span.startSeconds()));
    int to = Math.min(matrix.frames(), Math.max(from + 1, matrix.clock().frameAt(end)));
    double sum = 0;
    for (int f = from; f < to; f++) {
      sum += matrix.at(f, bin);
    }
    return Math.max(0.8 * begins(span, midiPitch), to > from ? sum / (to - from) : 0);
  }
}
