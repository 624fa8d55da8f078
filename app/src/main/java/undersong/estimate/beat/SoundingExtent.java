package undersong.estimate.beat;

import undersong.feature.FrameMatrix;
import undersong.time.FrameClock;

/**
 * The frames between the first sound and the last.
 *
 * @param from first sounding frame
 * @param to frame after the last; equal to {@code from} in silence
 */
record SoundingExtent(int from, int to) {
  private static final int WHOLE = 6;
  private static final double SILENT_DB = -80;
  private static final double BELOW_LOUDEST_DB = 55;

  /**
   * @param levelsDb RMS by band, the last bin being the whole
   * @param clock of the frames counted
   */
  static SoundingExtent of(FrameMatrix levelsDb, FrameClock clock, int frames) {
    double loudest = SILENT_DB;
    for (int i = 0; i < levelsDb.frames(); i++) {
      loudest = Math.max(loudest, levelsDb.at(i, WHOLE));
    }
    double floor = Math.max(SILENT_DB, loudest - BELOW_LOUDEST_DB);
    int first = 0;
    int last = levelsDb.frames() - 1;
    while (first < levelsDb.frames() && levelsDb.at(first, WHOLE) <= floor) {
      first++;
    }
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

  int length() {
    return to - from;
  }
}
