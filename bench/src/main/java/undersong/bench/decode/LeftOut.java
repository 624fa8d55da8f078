package undersong.bench.decode;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;

/** Features of which one kind of evidence says nothing any more. */
final class LeftOut {
  private LeftOut() {}

  /** The ear without some of its answers: equal for all that excludes another, else its mean. */
  static Features heads(Features features, EarHead... silent) {
    EarActivations ear = features.heard().orElseThrow();
    Map<String, FrameMatrix> heads = new HashMap<>(ear.heads());
    for (EarHead head : silent) {
      FrameMatrix answers = ear.head(head);
      float[] values = new float[answers.frames() * head.bins()];
      for (int bin = 0; bin < head.bins(); bin++) {
        float told = head.excludes() ? 1f / head.bins() : mean(answers, bin);
        for (int frame = 0; frame < answers.frames(); frame++) {
          values[frame * head.bins() + bin] = told;
        }
      }
      heads.put(head.output(), FrameMatrix.of(answers.clock(), head.bins(), values));
    }
    return features.withHeard(new EarActivations(ear.modelVersion(), heads));
  }

  private static float mean(FrameMatrix answers, int bin) {
    double sum = 0;
    for (int frame = 0; frame < answers.frames(); frame++) {
      sum += answers.at(frame, bin);
    }
    return (float) (sum / Math.max(1, answers.frames()));
  }

  /** Nothing heard by the trained ear. */
  static Features ear(Features features) {
    return with(features, features.bandOnsets(), Optional.empty());
  }

  /** No strokes of kick, snare and cymbals told apart. */
  static Features strokes(Features features) {
    FrameMatrix onsets = features.bandOnsets();
    float[] even = new float[onsets.frames() * onsets.bins()];
    Arrays.fill(even, 1);
    return with(features, FrameMatrix.of(onsets.clock(), onsets.bins(), even), features.heard());
  }

  private static Features with(Features f, FrameMatrix bandOnsets, Optional<EarActivations> heard) {
    return new Features(
        f.contentHash(),
        f.durationSeconds(),
        f.onsetStrength(),
        bandOnsets,
        f.tempogram(),
        f.longSpectrum(),
        f.shortSpectrum(),
        f.loudness(),
        f.bandLevelsDb(),
        f.sideLevelsDb(),
        f.centroidHz(),
        f.rollOffHz(),
        f.flatness(),
        f.image(),
        heard);
  }
}
