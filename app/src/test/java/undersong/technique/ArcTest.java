package undersong.technique;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import undersong.reading.SectionRole;

class ArcTest {
  private static WrittenSong song() {
    return WrittenSong.in("C major")
        .section(SectionRole.VERSE, "A", "C | F")
        .section(SectionRole.CHORUS, "B", "F | G")
        .section(SectionRole.VERSE, "A", "C | F")
        .section(SectionRole.CHORUS, "B", "F | G");
  }

  @Test
  void findsTheClimaxAndWhatFollowsIt() {
    Arc arc = Arc.of(song().lufs(-20, -20, -12, -12, -20, -20, -14, -14).reading());
    assertThat(arc.climax()).contains(1);
    assertThat(arc.chorusReturns()).isTrue();
    assertThat(arc.payoffAtEnd()).isFalse();
    assertThat(arc.stages().get(0).loudnessLu().orElseThrow()).isLessThan(0);
    assertThat(arc.stages()).extracting(Arc.Stage::isNew).containsExactly(true, true, false, false);
  }

  @Test
  void knowsAPayoffThatWasWaitedFor() {
    Arc arc = Arc.of(song().lufs(-20, -20, -18, -18, -20, -20, -10, -10).reading());
    assertThat(arc.climax()).contains(3);
    assertThat(arc.chorusReturns()).isFalse();
    assertThat(arc.payoffAtEnd()).isTrue();
  }

  @Test
  void hasNoClimaxWhereNothingWasMeasured() {
    assertThat(Arc.of(song().reading()).climax()).isEmpty();
  }
}
