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
        0.68,
        0.5,
        2,
        40);
  }

  @Test
  void aRestInWhichTheEarHearsLittleStands() {
    List<Stretch> found = rests(16, 24, 0.1).between(List.of(stretch(0, 16), stretch(24, 40)));

    assertThat(found).hasSize(2);
    assertThat(found.get(0).span().endSeconds()).isCloseTo(16, within(1e-6));
    assertThat(found.get(1).span().startSeconds()).isCloseTo(24, within(1e-6));
  }

  @Test
  void whatWasOnlyMissedIsNoRest() {
    List<Stretch> found = rests(16, 24, 0.9).between(List.of(stretch(0, 16), stretch(24, 40)));

    assertThat(found).hasSize(1);
    assertThat(found.get(0).span()).isEqualTo(new Span(0, 40));
    assertThat(found.get(0).sounds()).hasSize(2);
  }

  @Test
  void aShortRestMustBeClearerThanALongOne() {
    assertThat(rests(16, 18, 0.5).between(List.of(stretch(0, 16), stretch(18, 40)))).hasSize(1);
    assertThat(rests(12, 24, 0.5).between(List.of(stretch(0, 12), stretch(24, 40)))).hasSize(2);
  }

  @Test
  void aLayerBeginsWhereItIsFirstHeardAsUsual() {
    List<Stretch> found = rests(0, 6, 0).between(List.of(stretch(12, 40)));

    assertThat(found.get(0).span().startSeconds()).isCloseTo(6, within(1.01));
  }

  @Test
  void nothingHeardStaysNothing() {
    assertThat(rests(0, 40, 0).between(List.of())).isEmpty();
    assertThat(rests(0, 40, 0).between(List.of(stretch(3, 5)))).containsExactly(stretch(3, 5));
  }
}
