package undersong.feature.ear;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.EarSpectra;
import undersong.feature.FrameMatrix;

/** A recording heard stretch by stretch must be answered as one heard at once. */
final class HearingStretchesTest {
  private static ListeningModel model;

  @BeforeAll
  static void load() {
    model = ListeningModel.load().orElseThrow();
  }

  @AfterAll
  static void close() {
    model.close();
  }

  @Test
  void stretchesGiveWhatTheWholeGives() {
    assertSameAsWhole(Hearing.BLOCK_FRAMES + 2 * Hearing.STRETCH_FRAMES + 137);
  }

  @Test
  void aRecordingShorterThanItsMarginsIsHeard() {
    assertSameAsWhole(3);
  }

  @Test
  void aRecordingThatEndsWithAStretchIsHeard() {
    assertSameAsWhole(Hearing.STRETCH_FRAMES + 4);
  }

  @Test
  void nothingGivesNothing() {
    assertThat(new Hearing(model).finish().head(EarHead.BEAT).frames()).isZero();
  }

  private static void assertSameAsWhole(int frames) {
    EarSpectra whole = noise(frames);
    Hearing hearing = new Hearing(model);
    for (int at = 0; at < frames; at += 250) {
      hearing.accept(part(whole, at, Math.min(250, frames - at)));
    }
    EarActivations stretches = hearing.finish();
    for (Map.Entry<EarHead, FrameMatrix> head : atOnce(whole).entrySet()) {
      FrameMatrix found = stretches.head(head.getKey());
      assertThat(found.frames()).isEqualTo(head.getValue().frames());
      float farthest = 0;
      for (int frame = 0; frame < found.frames(); frame++) {
        for (int bin = 0; bin < found.bins(); bin++) {
          float off = found.at(frame, bin) - head.getValue().at(frame, bin);
          farthest = Math.max(farthest, Math.abs(off));
        }
      }
      assertThat(farthest).as(head.getKey().output()).isLessThan(1e-3f);
    }
  }

  private static Map<EarHead, FrameMatrix> atOnce(EarSpectra whole) {
    Map<EarHead, float[]> logits = new EnumMap<>(EarHead.class);
    try (Looked looked = model.look(whole)) {
      Thought thought = model.think(looked.joined(), whole.frames());
      logits.putAll(thought.logits());
      logits.putAll(model.follow(looked, thought));
      if (model.hears(EarHead.VOICE_ONSET)) {
        logits.putAll(model.hearPlayers(looked.planeValues(), thought.context(), whole.frames()));
      }
    }
    Map<EarHead, FrameMatrix> out = new EnumMap<>(EarHead.class);
    logits.forEach(
        (head, values) -> {
          HeadCollector collector = new HeadCollector(head, model.temperature(head));
          collector.add(values, 0, whole.frames());
          out.put(head, collector.finish());
        });
    return out;
  }

  private static EarSpectra noise(int frames) {
    Random random = new Random(4);
    float[][] tonal = new float[3][frames * EarSpectra.TONAL_BINS];
    for (float[] plane : tonal) {
      fill(random, plane);
    }
    float[] rhythm = new float[frames * EarSpectra.RHYTHM_BINS];
    fill(random, rhythm);
    return new EarSpectra(0, frames, tonal, rhythm);
  }

  private static void fill(Random random, float[] values) {
    for (int i = 0; i < values.length; i++) {
      values[i] = 3 * random.nextFloat();
    }
  }

  private static EarSpectra part(EarSpectra whole, int from, int frames) {
    float[][] tonal = new float[3][];
    for (int plane = 0; plane < 3; plane++) {
      tonal[plane] = cut(whole.tonal()[plane], from, frames, EarSpectra.TONAL_BINS);
    }
    return new EarSpectra(
        from, frames, tonal, cut(whole.rhythm(), from, frames, EarSpectra.RHYTHM_BINS));
  }

  private static float[] cut(float[] values, int from, int frames, int bins) {
    return Arrays.copyOfRange(values, from * bins, (from + frames) * bins);
  }
}
