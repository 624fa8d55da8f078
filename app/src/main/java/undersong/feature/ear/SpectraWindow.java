package undersong.feature.ear;

import undersong.feature.EarSpectra;

/**
 * A window that moves over the spectra of a recording, stretch by stretch, with some frames around
 * each stretch as far as there are any.
 */
final class SpectraWindow {
  private final int capacity;
  private final int margin;
  private final float[][] tonal;
  private final float[] rhythm;
  private int start;
  private int filled;
  private int stretchStart;

  SpectraWindow(int capacity, int margin) {
    this.capacity = capacity;
    this.margin = margin;
    tonal = new float[3][capacity * EarSpectra.TONAL_BINS];
    rhythm = new float[capacity * EarSpectra.RHYTHM_BINS];
  }

  /** Takes frames of a chunk from {@code from} on, as many as fit; gives how many. */
  int fill(EarSpectra chunk, int from) {
    int count = Math.min(chunk.frames() - from, capacity - filled);
    for (int plane = 0; plane < tonal.length; plane++) {
      copy(chunk.tonal()[plane], from, tonal[plane], filled, count, EarSpectra.TONAL_BINS);
    }
    copy(chunk.rhythm(), from, rhythm, filled, count, EarSpectra.RHYTHM_BINS);
    filled += count;
    return count;
  }

  boolean full() {
    return filled == capacity;
  }

  /** Number of the frame after the last one taken. */
  int end() {
    return start + filled;
  }

  /** What the window holds; valid until it slides. */
  EarSpectra spectra() {
    return new EarSpectra(start, filled, tonal, rhythm);
  }

  /** Moves on by a stretch of {@code frames}, keeping the margin before the next one. */
  void slide(int frames) {
    stretchStart += frames;
    int dropped = Math.max(0, stretchStart - margin) - start;
    filled -= dropped;
    for (float[] plane : tonal) {
      copy(plane, dropped, plane, 0, filled, EarSpectra.TONAL_BINS);
    }
    copy(rhythm, dropped, rhythm, 0, filled, EarSpectra.RHYTHM_BINS);
    start += dropped;
  }

  private static void copy(float[] from, int frame, float[] to, int at, int count, int bins) {
    System.arraycopy(from, frame * bins, to, at * bins, count * bins);
  }
}
