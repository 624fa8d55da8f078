package undersong.estimate.echo;

import undersong.feature.FrameMatrix;
import undersong.kernel.CopySearch;
import undersong.reading.NoteEvent;

/** How loud what sounds some time after a note at its partials, in phase with it, is against it. */
final class CopyLevels {
  private static final double LONGEST_NOTE_SECONDS = 0.5;

  /** Samples about a lag among which the loudest counts. */
  private static final int DOUBTFUL_SAMPLES = 4;

  private final float[] gains;
  private final double rateHz;

  private CopyLevels(float[] gains, double rateHz) {
    this.gains = gains;
    this.rateHz = rateHz;
  }

  /**
   * @param search with the wave's rate
   */
  static CopyLevels of(NoteEvent note, FrameMatrix wave, CopySearch search) {
    double rateHz = wave.clock().framesPerSecond();
    int most = (int) (LONGEST_NOTE_SECONDS * rateHz);
    int length = (int) (Math.min(LONGEST_NOTE_SECONDS, note.span().lengthSeconds()) * rateHz);
    float[] gains = new float[CopySearch.SIZE - most - 1];
    float[] window = new float[length + gains.length];
    int from = wave.clock().frameAt(note.span().startSeconds());
    for (int i = 0; i < window.length && from + i < wave.frames(); i++) {
      window[i] = wave.at(from + i, 0);
    }
    double hertz = 440 * Math.pow(2, (note.midiPitch() - 69) / 12);
    search.compare(window, length, hertz, gains, new float[gains.length]);
    return new CopyLevels(gains, rateHz);
  }

  /** Level of a copy some time later against the note; 0 where it is not known. */
  double after(double seconds) {
    int middle = (int) Math.round(seconds * rateHz);
    double most = 0;
    for (int i = middle - DOUBTFUL_SAMPLES; i <= middle + DOUBTFUL_SAMPLES; i++) {
      most = i >= 0 && i < gains.length ? Math.max(most, gains[i]) : most;
    }
    return most;
  }
}
