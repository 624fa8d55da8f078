package undersong.feature;

import java.util.EnumMap;
import java.util.HashMap;
import java.util.Map;
import undersong.time.FrameClock;

/** Ear activations made by hand: every head silent until a test fills it. */
public final class MadeUpHearing {
  private final double durationSeconds;
  private final Map<EarHead, float[]> values = new EnumMap<>(EarHead.class);

  public MadeUpHearing(double durationSeconds) {
    this.durationSeconds = durationSeconds;
    for (EarHead head : EarHead.values()) {
      values.put(head, new float[frames(head) * head.bins()]);
    }
  }

  /** Sets one bin of a head over a stretch of time. */
  public MadeUpHearing set(
      EarHead head, int bin, double startSeconds, double endSeconds, double probability) {
    double rate = (double) EarHead.FRAMES_PER_SECOND / head.averagedFrames();
    int end = Math.min(frames(head), (int) Math.round(endSeconds * rate));
    for (int frame = (int) Math.round(startSeconds * rate); frame < end; frame++) {
      values.get(head)[frame * head.bins() + bin] = (float) probability;
    }
    return this;
  }

  public EarActivations activations() {
    Map<String, FrameMatrix> heads = new HashMap<>();
    values.forEach(
        (head, array) ->
            heads.put(
                head.output(),
                FrameMatrix.of(
                    new FrameClock(22_050, 441 * head.averagedFrames()), head.bins(), array)));
    return new EarActivations("made-up", heads);
  }

  private int frames(EarHead head) {
    return (int) (durationSeconds * EarHead.FRAMES_PER_SECOND) / head.averagedFrames();
  }
}
