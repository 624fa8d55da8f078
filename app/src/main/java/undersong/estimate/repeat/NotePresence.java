package undersong.estimate.repeat;

import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.time.Span;

/**
 * How much of a note the ear heard somewhere, whether or not it was taken for a note there: what
 * was only just missed is not told as left out.
 */
final class NotePresence {
  private static final int LOWEST_MIDI = 21;
  private static final double ONSET_TOLERANCE_SECONDS = 0.08;
  private static final double LONGEST_SECONDS = 1;

  private final FrameMatrix onsets;
  private final FrameMatrix sustains;

  private NotePresence(FrameMatrix onsets, FrameMatrix sustains) {
    this.onsets = onsets;
    this.sustains = sustains;
  }

  /** Without a trained ear the notes of the reading are all there is: {@code found} is believed. */
  interface Hearing {
    /** From 0, nothing of it, to 1. */
    double strength(Span span, double midiPitch);
  }

  static Hearing in(Features features) {
    if (features.heard().isEmpty()) {
      return (span, midiPitch) -> 0;
    }
    EarActivations ear = features.heard().get();
    NotePresence heard =
        new NotePresence(ear.head(EarHead.NOTE_ONSET), ear.head(EarHead.NOTE_SUSTAIN));
    return heard::strength;
  }

  private double strength(Span span, double midiPitch) {
    int bin = (int) Math.round(midiPitch) - LOWEST_MIDI;
    if (bin < 0 || bin >= sustains.bins()) {
      return 0;
    }
    double start = span.startSeconds();
    double onset = 0;
    int last = onsets.clock().frameAt(start + ONSET_TOLERANCE_SECONDS);
    for (int f = Math.max(0, onsets.clock().frameAt(start - ONSET_TOLERANCE_SECONDS));
        f <= Math.min(last, onsets.frames() - 1);
        f++) {
      onset = Math.max(onset, onsets.at(f, bin));
    }
    double end = Math.min(span.endSeconds(), start + LONGEST_SECONDS);
    int from = Math.max(0, sustains.clock().frameAt(start));
    int to = Math.min(sustains.frames(), Math.max(from + 1, sustains.clock().frameAt(end)));
    double sum = 0;
    for (int f = from; f < to; f++) {
      sum += sustains.at(f, bin);
    }
    return Math.max(0.8 * onset, to > from ? sum / (to - from) : 0);
  }
}
