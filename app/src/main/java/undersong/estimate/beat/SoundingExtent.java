package undersong.estimate.beat;

import undersong.feature.FrameMatrix;
import undersong.time.FrameClock;

/**
 * The frames between the first sound and the last; the even noise of a tape or a room before the
 * one and after the other is no sound.
 *
 * @param from first sounding frame
 * @param to frame after the last; equal to {@code from} in silence
 */
record SoundingExtent(int from, int to) {
  private static final int WHOLE = 6;
  private static final double SILENT_DB = -80;
  private static final double BELOW_LOUDEST_DB = 55;

  /** Louder than this below the loudest moment, an edge is music, however even. */
  private static final double NOISE_BELOW_LOUDEST_DB = 30;

  /** Tape and room noise at an edge stays within this of where it begins. */
  private static final double NOISE_WANDERS_DB = 6;

  /**
   * @param levelsDb RMS by band, the last bin being the whole
   * @param clock of the frames counted
   */
  static SoundingExtent of(FrameMatrix levelsDb, FrameClock clock, int frames) {
    double loudest = SILENT_DB;
    for (int i = 0; i < levelsDb.frames(); i++) {
      loudest = Math.max(loudest, levelsDb.at(i, WHOLE));
    }
    int first = 0;
    int last = levelsDb.frames() - 1;
    double floor = floor(loudest, last < 0 ? SILENT_DB : levelsDb.at(first, WHOLE));
    while (first <= last && levelsDb.at(first, WHOLE) <= floor) {
      first++;
    }
    floor = floor(loudest, last < 0 ? SILENT_DB : levelsDb.at(last, WHOLE));
    while (last > first && levelsDb.at(last, WHOLE) <= floor) {
      last--;
    }
    if (first >= last) {
      return new SoundingExtent(0, 0);
    }
    int from = clock.frameAt(levelsDb.clock().secondsAt(first - 0.5));
    int to = clock.frameAt(levelsDb.clock().secondsAt(last + 0.5)) + 1;
    return new SoundingExtent(Math.max(0, from), Math.min(frames, to));
  }

  private static double floor(double loudestDb, double atEdgeDb) {
    double noise = Math.min(loudestDb - NOISE_BELOW_LOUDEST_DB, atEdgeDb + NOISE_WANDERS_DB);
    return Math.max(Math.max(SILENT_DB, loudestDb - BELOW_LOUDEST_DB), noise);
  }

  int length() {
    return to - from;
  }
}
