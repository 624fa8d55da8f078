package undersong.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import undersong.exchange.ChordChart.ChartBar;
import undersong.exchange.ChordChart.ChartChange;
import undersong.reading.Facet;
import undersong.reading.KeyRegion;
import undersong.reading.Reading;
import undersong.reading.Section;
import undersong.reading.SectionRole;
import undersong.reading.TimeSignature;
import undersong.theory.HarteSyntax;
import undersong.theory.Key;

class ChordChartTest {
  private static final TimeSignature WALTZ = new TimeSignature(3, false);

  private static ChartBar bar(String key, boolean opens, ChartChange... changes) {
    return new ChartBar(WALTZ, Key.parse(key), List.of(changes), "A", SectionRole.VERSE, opens);
  }

  private static ChartChange change(double beat, String chord) {
    return new ChartChange(beat, HarteSyntax.parse(chord));
  }

  /** A verse of two bars, and again a whole tone higher. */
  private static Reading song() {
    List<ChartBar> bars = new ArrayList<>();
    bars.add(bar("C major", true, change(0, "C"), change(2, "G/3")));
    bars.add(bar("C major", false, change(0, "G/3"), change(1, "C:5")));
    bars.add(bar("D major", true, change(0, "D"), change(2, "A/3")));
    bars.add(bar("D major", false, change(0, "N")));
    return new ChordChart(bars).read(60);
  }

  @Test
  void laysChordsOutWhereTheyStand() {
    assertThat(song().get(Facet.CHORDS).spans())
        .extracting(s -> HarteSyntax.print(s.symbol()) + " " + s.span().startSeconds())
        .containsExactly(
            "C:maj 0.0", "G:maj/3 2.0", "C:5 4.0", "D:maj 6.0", "A:maj/3 8.0", "N 9.0");
    assertThat(song().get(Facet.CHORDS).spans().get(2).third().sounds()).isFalse();
    assertThat(song().durationSeconds()).isEqualTo(12);
    assertThat(song().get(Facet.BASS).notes().get(1).pitchClass()).isEqualTo(11);
  }

  @Test
  void tellsKeysAndHowFarACopyIsTransposed() {
    assertThat(song().get(Facet.KEYS).regions())
        .extracting(KeyRegion::key)
        .containsExactly(Key.parse("C major"), Key.parse("D major"));
    assertThat(song().get(Facet.FORM).sections())
        .extracting(Section::transposedSemitones)
        .containsExactly(0, 2);
    assertThat(song().get(Facet.METER).mainSignature()).isEqualTo(WALTZ);
  }

  @Test
  void refusesWhatNobodyCanPlay() {
    assertThatThrownBy(() -> bar("C major", true, change(1, "C"))).hasMessageContaining("beat 0");
    assertThatThrownBy(() -> bar("C major", true, change(0, "C"), change(3, "G")))
        .hasMessageContaining("3.0");
    assertThatThrownBy(() -> new ChordChart(List.of())).hasMessageContaining("at least one bar");
    assertThatThrownBy(() -> new ChordChart(List.of(bar("C major", true, change(0, "C")))).read(0))
        .hasMessageContaining("bpm");
  }
}
