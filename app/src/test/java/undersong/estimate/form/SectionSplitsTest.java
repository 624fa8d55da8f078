package undersong.estimate.form;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import undersong.reading.Facet;

/** Verse and chorus twice in one breath, a bridge, and one of them alone. */
class SectionSplitsTest {
  private static final int[] VERSE = {60, 57, 65, 67, 60, 57, 62, 67};
  private static final int[] CHORUS = {65, 67, 64, 57, 65, 67, 60, 60};
  private static final int[] BRIDGE = {61, 66, 61, 68, 63, 61, 66, 63};

  private static BarwiseSound music(int[]... sections) {
    BarwiseSound sound = new BarwiseSound();
    for (int[] roots : sections) {
      for (int root : roots) {
        sound.bar(root, root % 3 == 0 ? 3 : 4, roots == VERSE ? -24 : -12, 4);
      }
    }
    return sound;
  }

  private static List<Integer> split(BarwiseSound sound, Set<Integer> forbidden) {
    BarSpans spans = BarSpans.of(sound.bars().get(Facet.METER), sound.durationSeconds());
    SelfSimilarity bars =
        new SelfSimilarity(BarDescriptions.of(sound.features(), spans, 0), 0.65, 0.3);
    return SectionSplits.split(bars, List.of(0, 16, 32, 40), forbidden, 48);
  }

  @Test
  void splitsWhatEndsWithMusicThatComesAlone() {
    assertThat(split(music(VERSE, CHORUS, VERSE, CHORUS, BRIDGE, CHORUS), Set.of()))
        .containsExactly(0, 8, 16, 24, 32, 40);
  }

  @Test
  void splitsWhatBeginsWithMusicThatComesAlone() {
    assertThat(split(music(VERSE, CHORUS, VERSE, CHORUS, BRIDGE, VERSE), Set.of()))
        .containsExactly(0, 8, 16, 24, 32, 40);
  }

  @Test
  void leavesWhatOnlyComesAsAWhole() {
    assertThat(split(music(VERSE, CHORUS, VERSE, CHORUS, BRIDGE, BRIDGE), Set.of()))
        .containsExactly(0, 16, 32, 40);
  }

  /** A listener who said that no section begins there has the last word. */
  @Test
  void splitsNotWhereAListenerSaidNo() {
    assertThat(split(music(VERSE, CHORUS, VERSE, CHORUS, BRIDGE, CHORUS), Set.of(8)))
        .containsExactly(0, 16, 24, 32, 40);
  }
}
