package undersong.estimate.texture;

import java.util.ArrayList;
import java.util.List;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.reading.Bar;
import undersong.reading.BarTexture;
import undersong.time.BeatGrid;

/** Where in each bar the snare is struck: what a backbeat is told by. */
final class SnareStrokes {
  private static final int SNARE = 1;
  private static final double LIMIT = 0.5;

  private SnareStrokes() {}

  /** The bars with their strokes; as they are where there is no trained ear or no pulse. */
  static List<BarTexture> in(
      List<BarTexture> textures, List<Bar> bars, BeatGrid grid, Features features) {
    if (features.heard().isEmpty() || grid.isEmpty()) {
      return textures;
    }
    List<BarTexture> struck = new ArrayList<>();
    for (int i = 0; i < textures.size(); i++) {
      struck.add(
          textures.get(i).withSnareBeats(strokes(features.heard().get(), bars.get(i), grid)));
    }
    return struck;
  }

  private static List<Double> strokes(EarActivations ear, Bar bar, BeatGrid grid) {
    FrameMatrix drums = ear.head(EarHead.DRUMS);
    // A stroke may come a little before the bar line it belongs to.
    double early = 0.1 * bar.span().lengthSeconds() / bar.beats();
    int from = Math.max(1, drums.clock().frameAt(bar.span().startSeconds() - early));
    int end = Math.min(drums.frames() - 1, drums.clock().frameAt(bar.span().endSeconds() - early));
    List<Double> beats = new ArrayList<>();
    for (int frame = from; frame < end; frame++) {
      float here = drums.at(frame, SNARE);
      if (here >= LIMIT
          && here >= drums.at(frame - 1, SNARE)
          && here > drums.at(frame + 1, SNARE)) {
        double beat = grid.positionAt(drums.clock().secondsAt(frame)) - bar.firstBeat();
        beats.add(Math.rint(beat * 100) / 100);
      }
    }
    return beats;
  }
}
