package undersong.estimate.texture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import undersong.estimate.texture.Stretches.Sound;
import undersong.estimate.texture.Stretches.Stretch;
import undersong.time.Span;

/** Layers that rest and layers that were only missed; common practice, no source. */
final class RestsTest {
  private static Stretch stretch(double start, double end) {
    return new Stretch(new Span(start, end), List.of(new Sound(start, end, 0.9)));
  }

  /** Bars of two seconds; heard as usual but for a share of it between two moments. */
  private static Rests rests(double from, double to, double share) {
    return new Rests(
        (start, end) -> {
          double quiet = Math.max(0, Math.min(end, to) - Math.max(start, from));
          return (end - start - quiet + share * quiet) / (end - start);
        },
        new RestSettings.Limit(0.68, 0.5),
        2,
        40);
  }

  private static List<Stretch> heard(Rests rests, Stretch... stretches) {
    return rests.longer(rests.joined(List.of(stretches)));
  }

  @Test
  void aRestInWhichTheEarHearsLittleStands() {
    List<Stretch> found = heard(rests(16, 24, 0.1), stretch(0, 16), stretch(24, 40));

    assertThat(found).hasSize(2);
    assertThat(found.get(0).span().endSeconds()).isCloseTo(16, within(1e-6));
    assertThat(found.get(1).span().startSeconds()).isCloseTo(24, within(1e-6));
  }

  @Test
  void whatWasOnlyMissedIsNoRest() {
    List<Stretch> found = heard(rests(16, 24, 0.9), stretch(0, 16), stretch(24, 40));

    assertThat(found).hasSize(1);
    assertThat(found.get(0).span()).isEqualTo(new Span(0, 40));
    assertThat(found.get(0).sounds()).hasSize(2);
  }

  @Test
  void aShortRestMustBeClearerThanALongOne() {
    assertThat(heard(rests(16, 18, 0.5), stretch(0, 16), stretch(18, 40))).hasSize(1);
    assertThat(heard(rests(12, 24, 0.5), stretch(0, 12), stretch(24, 40))).hasSize(2);
  }

  @Test
  void twoThatBothReachIntoTheGapBetweenThemAreOne() {
    List<Stretch> apart = List.of(stretch(0, 16), stretch(24, 40));

    List<Stretch> found = rests(16, 24, 0.9).longer(apart);

    assertThat(found).extracting(Stretch::span).containsExactly(new Span(0, 40));
  }

  @Test
  void aLayerBeginsWhereItIsFirstHeardAsUsual() {
    List<Stretch> found = heard(rests(0, 6, 0), stretch(12, 40));

    assertThat(found.get(0).span().startSeconds()).isCloseTo(6, within(1.01));
  }

  @Test
  void whatIsHeardBeforeTheFirstSoundAndAfterTheLastIsJudgedLikeAnyRest() {
    List<Stretch> between = List.of(stretch(8, 32));

    assertThat(rests(0, 8, 0.1).toTheEdges(between, 0, 40))
        .containsExactly(new Stretch(new Span(8, 40), between.get(0).sounds()));
    assertThat(rests(32, 40, 0.1).toTheEdges(between, 0, 40))
        .containsExactly(new Stretch(new Span(0, 32), between.get(0).sounds()));
    assertThat(rests(0, 40, 0).toTheEdges(List.of(), 0, 40)).isEmpty();
  }

  @Test
  void whatStopsJustBeforeTheEndEndsWithTheSong() {
    List<Stretch> stretches = List.of(stretch(0, 12), stretch(20, 37));

    assertThat(Stretches.toTheEnd(stretches, 40, 4).get(1).span()).isEqualTo(new Span(20, 40));
    assertThat(Stretches.toTheEnd(stretches, 41, 4)).isEqualTo(stretches);
    assertThat(Stretches.toTheEnd(stretches, 30, 4)).isEqualTo(stretches);
    assertThat(Stretches.toTheEnd(List.of(), 40, 4)).isEmpty();
  }

  @Test
  void nothingHeardStaysNothing() {
    assertThat(heard(rests(0, 40, 0))).isEmpty();
    assertThat(heard(rests(0, 40, 0), stretch(3, 5))).containsExactly(stretch(3, 5));
  }
}
