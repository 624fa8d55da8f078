package undersong.feature.ear;

import java.util.Arrays;
import undersong.feature.EarHead;
import undersong.feature.EarSpectra;
import undersong.feature.FrameMatrix;

/**
 * The room of one recording being heard: rhythm spectra are collected and answered block by block
 * with as many frames around each block as the stage looks back and ahead, so that the answer is
 * that of the whole.
 */
final class RoomHearing {
  private static final int BINS = EarSpectra.RHYTHM_BINS;

  private final ListeningModel model;
  private final HeadCollector collector;
  private float[] waiting = new float[0];
  private int start;
  private int end;
  private int heard;

  RoomHearing(ListeningModel model) {
    this.model = model;
    collector = new HeadCollector(EarHead.ROOM, model.temperature(EarHead.ROOM));
  }

  void accept(EarSpectra chunk) {
    int size = (end - start + chunk.frames()) * BINS;
    if (size > waiting.length) {
      waiting = Arrays.copyOf(waiting, size + size / 2);
    }
    System.arraycopy(chunk.rhythm(), 0, waiting, (end - start) * BINS, chunk.frames() * BINS);
    end += chunk.frames();
    while (end >= heard + Hearing.BLOCK_FRAMES + model.roomReachFrames()) {
      hear(heard + Hearing.BLOCK_FRAMES);
    }
  }

  /** Call once, after the last chunk. */
  FrameMatrix finish() {
    while (heard < end) {
      hear(Math.min(end, heard + Hearing.BLOCK_FRAMES));
    }
    return collector.finish();
  }

  private void hear(int to) {
    int reach = model.roomReachFrames();
    int from = Math.max(0, heard - reach);
    int until = Math.min(end, to + reach);
    float[] logits =
        model.hearRoom(Arrays.copyOfRange(waiting, (from - start) * BINS, (until - start) * BINS));
    collector.add(logits, heard - from, to - from);
    heard = to;
    int keep = Math.max(0, heard - reach);
    System.arraycopy(waiting, (keep - start) * BINS, waiting, 0, (end - keep) * BINS);
    start = keep;
  }
}
