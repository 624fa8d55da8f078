package undersong.feature.ear;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;

class HeadCollectorTest {
  /** Each run of classes shares one probability; worked by hand. */
  @Test
  void everyBandOfTheRoomAddsUpToOne() {
    float[] logits = new float[10 * EarHead.ROOM.bins()];
    for (int frame = 0; frame < 10; frame++) {
      logits[frame * EarHead.ROOM.bins() + 5] = (float) Math.log(12); // against twelve others
    }
    HeadCollector collector = new HeadCollector(EarHead.ROOM, 1);
    collector.add(logits, 0, 10);

    FrameMatrix room = collector.finish();

    assertThat(room.frames()).isEqualTo(1);
    assertThat(room.clock().framesPerSecond()).isEqualTo(5);
    assertThat(room.at(0, 5)).isCloseTo(0.5f, within(1e-3f));
    assertThat(room.at(0, 13)).isCloseTo(1 / 13f, within(1e-3f));
    assertThat(room.at(0, 63)).isCloseTo(1 / 12f, within(1e-3f));
  }
}
