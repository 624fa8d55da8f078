package undersong.technique.harmony;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import undersong.estimate.harmony.KeyedHarmonyEstimator;
import undersong.exchange.ChordChart;
import undersong.exchange.ChordChart.ChartBar;
import undersong.exchange.ChordChart.ChartChange;
import undersong.expectation.ChordExpectation;
import undersong.expectation.ExpectationCounts;
import undersong.expectation.ExpectationSettings;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.reading.TimeSignature;
import undersong.render.DemoSong;
import undersong.render.DemoSongs;
import undersong.render.score.Truth;
import undersong.technique.BarRange;
import undersong.technique.Evidence;
import undersong.technique.Finding;
import undersong.technique.Technique;
import undersong.technique.Texts;
import undersong.theory.HarteSyntax;
import undersong.theory.Key;

/** Songs of our own, one chord a bar; what surprises in them is common practice, no source. */
class AgainstExpectationTest {
  private static final AgainstExpectation FINDER =
      new AgainstExpectation(
          new ChordExpectation(ExpectationCounts.ofCharts(), ExpectationSettings.DEFAULTS));
  private static final String LOOP = "C A:min F G ";

  /** Sections are written one string each; equal letters name equal music. */
  private static Reading song(String letters, String... sections) {
    List<ChartBar> bars = new ArrayList<>();
    for (int s = 0; s < sections.length; s++) {
      boolean opens = true;
      for (String chord : sections[s].strip().split(" ", -1)) {
        bars.add(
            new ChartBar(
                TimeSignature.FOUR_FOUR,
                Key.parse("C major"),
                List.of(new ChartChange(0, HarteSyntax.parse(chord))),
                letters.substring(s, s + 1),
                SectionRole.OTHER,
                opens));
        opens = false;
      }
    }
    return withHarmony(new ChordChart(bars).read(120));
  }

  private static Reading withHarmony(Reading reading) {
    return reading.with(Facet.HARMONY, Derived.of(KeyedHarmonyEstimator.of(reading)));
  }

  private static List<Finding> told(Reading song, Technique technique) {
    return FINDER.find(song).stream()
        .filter(finding -> finding.technique() == technique && finding.probability() >= 0.5)
        .toList();
  }

  @Test
  void hearsALoopThatBreaksItsPromise() {
    Reading song = song("A", LOOP.repeat(3) + "C A:min Ab G " + LOOP.repeat(2));
    List<Finding> broken = told(song, Technique.BROKEN_LOOP);
    assertThat(broken).hasSize(1);
    assertThat(broken.get(0).bars()).contains(new BarRange(11, 15));
    assertThat(broken.get(0).evidence()).hasAtLeastOneElementOfType(Evidence.Measured.class);
    assertThat(Texts.in(Locale.ENGLISH).say(broken.get(0).summary()))
        .contains("bVI")
        .contains("IV");
  }

  @Test
  void letsALaterCopyBreakWhatOneEarlierStatementSaid() {
    String verse = "C E:min F G A:min D:min G C ";
    String other = "F G C A:min ";
    Reading song = song("ABA", verse + verse, other + other, "C E:min F G A:min Bb Eb C " + verse);
    assertThat(told(song, Technique.BROKEN_LOOP))
        .extracting(finding -> finding.span().endSeconds())
        .containsExactly(2.0 * (16 + 8 + 6));
  }

  /** Where one copy ends and the next begins, the listener still expects what was stated. */
  @Test
  void copiesThatFollowEachOtherAreOneStretch() {
    Reading song = song("AAA", LOOP.repeat(2), LOOP + "C A:min ", "Ab G " + LOOP.repeat(2));
    assertThat(told(song, Technique.BROKEN_LOOP))
        .singleElement()
        .satisfies(found -> assertThat(found.bars()).contains(new BarRange(11, 15)));
    Reading apart =
        song("AABA", LOOP.repeat(2), LOOP + "C A:min ", "D:min E:min", "Ab G " + LOOP.repeat(2));
    assertThat(told(apart, Technique.BROKEN_LOOP)).isEmpty();
  }

  /**
   * Planted in the demo: the second verse ends with two borrowed chords where the first had none.
   */
  @Test
  void hearsTheBrokenLoopOfTheDemo() {
    DemoSong song =
        DemoSongs.all().stream()
            .filter(s -> s.truth().techniqueIds().contains("broken-loop"))
            .findFirst()
            .orElseThrow();
    Truth.Planted planted =
        song.truth().planted().stream()
            .filter(p -> p.techniqueId().equals("broken-loop"))
            .findFirst()
            .orElseThrow();
    assertThat(told(withHarmony(song.truth().reading()), Technique.BROKEN_LOOP))
        .hasSize(1)
        .allMatch(finding -> finding.span().overlaps(planted.span()));
  }

  @Test
  void takesFirstAndSecondEndingsForOrdinary() {
    String opening = "C A:min D:min G C A:min ";
    Reading song =
        song("ABA", opening + "F G " + opening + "G C ", LOOP.repeat(2), opening + "F G");
    assertThat(FINDER.find(song)).filteredOn(f -> f.probability() >= 0.5).isEmpty();
  }

  @Test
  void findsNothingInAPlainSongOrInSilence() {
    Reading plain =
        song("ABAB", LOOP.repeat(4), "F G C C ".repeat(2), LOOP.repeat(4), "F G C C ".repeat(2));
    assertThat(FINDER.find(plain)).isEmpty();
    assertThat(FINDER.find(song("A", "N N N N"))).isEmpty();
  }

  @Test
  void hearsAChordNobodySawComing() {
    Reading song =
        song("AB", "C F G C A:min D:min G C ", "F G E:min A:min D:min F# F G C A:min F G C");
    List<Finding> surprising = told(song, Technique.SURPRISING_CHORD);
    assertThat(surprising).hasSize(1);
    assertThat(surprising.get(0).bars()).contains(new BarRange(14, 14));
    assertThat(Texts.in(Locale.ENGLISH).say(surprising.get(0).summary()))
        .startsWith("F# (#IV) is hard to see coming");
  }
}
