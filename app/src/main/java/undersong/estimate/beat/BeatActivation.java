package undersong.estimate.beat;

import undersong.feature.FrameSeries;
import undersong.time.FrameClock;

/**
 * What speaks for a beat, frame by frame, wherever it was measured. All series share one clock and
 * length.
 *
 * @param beat 0 to 1: strength of a beat on this frame
 * @param low 0 to 1: strokes of kick drum and bass
 * @param middle 0 to 1: strokes of snare drum and chords
 * @param high 0 to 1: strokes of cymbals
 * @param tempo strength of each tempo over time
 */
record BeatActivation(
    FrameSeries beat, FrameSeries low, FrameSeries middle, FrameSeries high, TempoEvidence tempo) {
  BeatActivation {
    for (FrameSeries band : new FrameSeries[] {low, middle, high}) {
      if (band.frames() != beat.frames() || !band.clock().equals(beat.clock())) {
        throw new IllegalArgumentException(
            "Beat strengths have %d frames, a band has %d; they must share one clock and length."
                .formatted(beat.frames(), band.frames()));
      }
    }
  }

  FrameClock clock() {
    return beat.clock();
  }

  int frames() {
    return beat.frames();
  }
}
