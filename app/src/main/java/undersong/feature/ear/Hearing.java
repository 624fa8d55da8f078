package undersong.feature.ear;

import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.Map;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.EarSpectra;
import undersong.feature.EarSpectraSink;
import undersong.feature.FrameMatrix;

/**
 * One recording being heard. Collects spectra into windows of a minute, runs the network on each
 * and keeps the middle 40 s, since the network sees some 13 s to either side; the first window
 * keeps its beginning, the last its end. Memory: one window of spectra and the kept probabilities.
 */
public final class Hearing implements EarSpectraSink {
  static final int WINDOW_FRAMES = 3000;
  static final int ADVANCE_FRAMES = 2000;
  private static final int LEAD_IN_FRAMES = (WINDOW_FRAMES - ADVANCE_FRAMES) / 2;

  private final ListeningModel model;
  private final Map<EarHead, HeadCollector> collectors = new EnumMap<>(EarHead.class);
  private final float[][] tonal = new float[3][WINDOW_FRAMES * EarSpectra.TONAL_BINS];
  private final float[] rhythm = new float[WINDOW_FRAMES * EarSpectra.RHYTHM_BINS];
  private int windowStart;
  private int filled;
  private int kept;

  public Hearing(ListeningModel model) {
    this.model = model;
    for (EarHead head : EarHead.values()) {
      collectors.put(head, new HeadCollector(head, model.temperature(head)));
    }
  }

  @Override
  public void accept(EarSpectra chunk) {
    int taken = 0;
    while (taken < chunk.frames()) {
      int count = Math.min(chunk.frames() - taken, WINDOW_FRAMES - filled);
      copy(chunk, taken, count);
      taken += count;
      if (filled == WINDOW_FRAMES && taken < chunk.frames()) {
        hear(LEAD_IN_FRAMES + ADVANCE_FRAMES);
        slide();
      }
    }
  }

  /** Hears what is left and gives everything that was heard. Call once, after the last chunk. */
  public EarActivations finish() {
    if (filled > 0) {
      hear(filled);
    }
    Map<String, FrameMatrix> heads = new LinkedHashMap<>();
    collectors.forEach((head, collector) -> heads.put(head.output(), collector.finish()));
    return new EarActivations(model.version(), heads);
  }

  private void copy(EarSpectra chunk, int from, int count) {
    for (int plane = 0; plane < tonal.length; plane++) {
      System.arraycopy(
          chunk.tonal()[plane],
          from * EarSpectra.TONAL_BINS,
          tonal[plane],
          filled * EarSpectra.TONAL_BINS,
          count * EarSpectra.TONAL_BINS);
    }
    System.arraycopy(
        chunk.rhythm(),
        from * EarSpectra.RHYTHM_BINS,
        rhythm,
        filled * EarSpectra.RHYTHM_BINS,
        count * EarSpectra.RHYTHM_BINS);
    filled += count;
  }

  /**
   * Runs the network on the window and keeps its frames from the first unkept one to {@code end}.
   */
  private void hear(int end) {
    Map<EarHead, float[]> logits = model.logits(new EarSpectra(windowStart, filled, tonal, rhythm));
    int begin = kept - windowStart;
    collectors.forEach((head, collector) -> collector.add(logits.get(head), begin, end));
    kept = windowStart + end;
  }

  private void slide() {
    int stay = WINDOW_FRAMES - ADVANCE_FRAMES;
    for (float[] plane : tonal) {
      System.arraycopy(
          plane, ADVANCE_FRAMES * EarSpectra.TONAL_BINS, plane, 0, stay * EarSpectra.TONAL_BINS);
    }
    System.arraycopy(
        rhythm, ADVANCE_FRAMES * EarSpectra.RHYTHM_BINS, rhythm, 0, stay * EarSpectra.RHYTHM_BINS);
    windowStart += ADVANCE_FRAMES;
    filled = stay;
  }
}
