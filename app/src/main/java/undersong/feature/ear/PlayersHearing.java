package undersong.feature.ear;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.EnumMap;
import java.util.Map;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;

/**
 * Who plays the notes of one recording: planes and context are collected stretch by stretch and
 * answered with as many frames around as the stage looks back and ahead, so that the answer is that
 * of the whole.
 */
final class PlayersHearing {
  private final ListeningModel model;
  private final Map<EarHead, HeadCollector> collectors = new EnumMap<>(EarHead.class);
  private final Deque<Piece> pieces = new ArrayDeque<>();
  private int end;
  private int heard;

  /** {@code values} rows of {@code frames} frames of {@code width} numbers each. */
  @SuppressWarnings("ArrayRecordComponent") // collected, never compared
  private record Rows(float[] values, int frames, int width) {
    int count() {
      return values.length / frames / width;
    }
  }

  /** Frames {@code start} to {@code start + count}, which begin at {@code at} in the rows. */
  private record Piece(Rows planes, Rows context, int at, int start, int count) {}

  PlayersHearing(ListeningModel model) {
    this.model = model;
    for (EarHead head : EarHead.PLAYERS) {
      collectors.put(head, new HeadCollector(head, model.temperature(head)));
    }
  }

  /**
   * Takes the {@code count} frames that come next.
   *
   * @param planes of a stretch of {@code frames}, channel after channel, each frame after frame
   * @param context of the same stretch, row after row
   * @param at where what is taken begins in the stretch
   */
  void accept(float[] planes, float[] context, int frames, int at, int count) {
    pieces.add(
        new Piece(
            new Rows(planes, frames, EarHead.VOICE_ONSET.bins()),
            new Rows(context, frames, 1),
            at,
            end,
            count));
    end += count;
    while (end >= heard + Hearing.STRETCH_FRAMES + model.playersReachFrames()) {
      hear(heard + Hearing.STRETCH_FRAMES);
    }
  }

  /** Call once, after the last stretch. */
  Map<EarHead, FrameMatrix> finish() {
    while (heard < end) {
      hear(Math.min(end, heard + Hearing.STRETCH_FRAMES));
    }
    Map<EarHead, FrameMatrix> told = new EnumMap<>(EarHead.class);
    collectors.forEach((head, collector) -> told.put(head, collector.finish()));
    return told;
  }

  private void hear(int to) {
    int reach = model.playersReachFrames();
    int from = Math.max(0, heard - reach);
    int until = Math.min(end, to + reach);
    float[] planes = new float[0];
    float[] context = new float[0];
    for (Piece piece : pieces) {
      planes = laid(piece.planes(), piece, from, until, planes);
      context = laid(piece.context(), piece, from, until, context);
    }
    int begin = heard - from;
    int stop = to - from;
    model
        .hearPlayers(planes, context, until - from)
        .forEach((head, logits) -> collectors.get(head).add(logits, begin, stop));
    heard = to;
    while (!pieces.isEmpty() && pieces.peek().start() + pieces.peek().count() <= heard - reach) {
      pieces.remove();
    }
  }

  /** Copies what a piece has of the frames {@code from} to {@code until} into all rows of these. */
  private static float[] laid(Rows rows, Piece piece, int from, int until, float[] laid) {
    int width = rows.width();
    int row = (until - from) * width;
    float[] whole = laid.length == 0 ? new float[rows.count() * row] : laid;
    int first = Math.max(from, piece.start());
    int frames = Math.min(until, piece.start() + piece.count()) - first;
    for (int i = 0; frames > 0 && i < rows.count(); i++) {
      int source = (i * rows.frames() + piece.at() + first - piece.start()) * width;
      System.arraycopy(
          rows.values(), source, whole, i * row + (first - from) * width, frames * width);
    }
    return whole;
  }
}
