package undersong.technique;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.reading.Tuning;
import undersong.time.Span;

class TechniquesTest {
  private static final Reading TUNED =
      Reading.empty(60).with(Facet.TUNING, Derived.of(new Tuning(0, 1)));

  private static Finding finding(Technique technique, double start, double end, double sure) {
    Span span = new Span(start, end);
    return new Finding(
        technique,
        span,
        Optional.empty(),
        sure,
        "here",
        Sentence.of("kind.theory"),
        List.of(new Evidence.Heard(span, Sentence.of("kind.theory"))));
  }

  private static TechniqueFinder finder(Facet<?> reads, Finding... findings) {
    return new TechniqueFinder() {
      @Override
      public Set<Technique> techniques() {
        return Set.of(Technique.ECHO, Technique.PLAGAL_CHAIN, Technique.BORROWED_CHORD);
      }

      @Override
      public Set<Facet<?>> reads() {
        return Set.of(reads);
      }

      @Override
      public List<Finding> find(Reading reading) {
        assertThatThrownBy(() -> reading.get(Facet.BEATS))
            .isInstanceOf(NoSuchElementException.class);
        return List.of(findings);
      }
    };
  }

  private static List<Finding> told(TechniqueFinder... finders) {
    return new Techniques(List.of(finders), Calibration.NONE).in(TUNED);
  }

  @Test
  void tellsTheMostSpecificAndListsTheOthersUnderIt() {
    List<Finding> told =
        told(
            finder(
                Facet.TUNING,
                finding(Technique.BORROWED_CHORD, 12, 14, 0.9),
                finding(Technique.BORROWED_CHORD, 30, 32, 0.9),
                finding(Technique.PLAGAL_CHAIN, 10, 18, 0.8)));
    assertThat(told)
        .extracting(Finding::technique)
        .containsExactly(Technique.PLAGAL_CHAIN, Technique.BORROWED_CHORD);
    assertThat(told.get(0).under()).containsExactly(Technique.BORROWED_CHORD);
    assertThat(told.get(1).under()).isEmpty();
  }

  @Test
  void letsNoGuessHideWhatIsSure() {
    assertThat(
            told(
                finder(
                    Facet.TUNING,
                    finding(Technique.BORROWED_CHORD, 12, 14, 0.9),
                    finding(Technique.PLAGAL_CHAIN, 10, 18, 0.2))))
        .hasSize(2);
  }

  @Test
  void runsNoFinderWhoseFacetsAreMissing() {
    assertThat(told(finder(Facet.BEATS, finding(Technique.ECHO, 1, 2, 1)))).isEmpty();
  }

  @Test
  void refusesAFinderThatFindsWhatItDoesNotName() {
    TechniqueFinder strange = finder(Facet.TUNING, finding(Technique.RIFF, 1, 2, 1));
    assertThatThrownBy(() -> told(strange)).hasMessageContaining("riff");
  }

  @Test
  void refusesAFindingWithoutEvidence() {
    assertThatThrownBy(
            () ->
                new Finding(
                    Technique.ECHO,
                    new Span(1, 2),
                    Optional.empty(),
                    1,
                    "here",
                    Sentence.of("kind.theory"),
                    List.of()))
        .hasMessageContaining("no evidence");
  }

  /** Log odds of 0.8 are ln 4; halved they are ln 2, which is 2/3. */
  @Test
  void calibratesOnTheLogOdds() {
    Calibration half = Calibration.of(Map.of(Technique.ECHO, new Calibration.Line(0.5, 0)));
    assertThat(half.probability(Technique.ECHO, 0.8)).isEqualTo(2 / 3.0, within(1e-12));
    assertThat(half.probability(Technique.RIFF, 0.8)).isEqualTo(0.8);
    assertThat(half.probability(Technique.RIFF, 1)).isLessThan(1);
  }

  @Test
  void namesEveryTechniqueByItsId() {
    for (Technique technique : Technique.values()) {
      assertThat(Technique.named(technique.id())).isEqualTo(technique);
    }
    assertThatThrownBy(() -> Technique.named("nothing")).hasMessageContaining("nothing");
  }
}
