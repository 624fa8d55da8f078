package undersong.estimate.space;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import undersong.estimate.SoundingScene;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.HearingBand;
import undersong.reading.PlacedEvent;
import undersong.reading.SoundSource;
import undersong.reading.Space;
import undersong.time.Span;

/** Places by the constant-power law, which scene and estimator know independently of each other. */
final class PlacedSpaceTest {
  private static Space space(SoundingScene scene) {
    return new PlacedSpace().estimate(scene.features(), scene.reading(), Corrections.NONE).value();
  }

  private static List<PlacedEvent> of(Space space, SoundSource source) {
    return space.events().stream().filter(event -> event.source() == source).toList();
  }

  @ParameterizedTest
  @ValueSource(doubles = {-1, -0.6, -0.25, 0, 0.4, 0.8})
  void aNoteStandsWhereItWasPannedUnderAHeldChord(double place) {
    SoundingScene scene =
        new SoundingScene(8)
            .note(0, 8, 48, -0.3, 0.1)
            .note(0, 8, 55, 0.3, 0.1)
            .note(3, 3.4, 76, place, 0.08);
    PlacedEvent note =
        of(space(scene), SoundSource.LINE).stream()
            .filter(event -> event.midiPitch().orElse(0) == 76)
            .findFirst()
            .orElseThrow();

    assertThat(note.placement()).isCloseTo(place, within(0.05));
    assertThat(note.span().startSeconds()).isCloseTo(3, within(0.03));
  }

  @Test
  void shortLinesJumpWhileTheLeadStays() {
    SoundingScene scene = new SoundingScene(10).bass(0, 10, 36);
    for (int i = 0; i < 8; i++) {
      scene.lead(1 + i, 1.8 + i, 64 + i % 3, 0, 0.15);
      scene.note(1.25 + i, 1.5 + i, 79 + i % 2, i % 2 == 0 ? -0.7 : 0.7, 0.08);
    }
    Space space = space(scene);

    assertThat(of(space, SoundSource.LEAD))
        .isNotEmpty()
        .allSatisfy(phrase -> assertThat(phrase.placement()).isCloseTo(0, within(0.1)));
    List<PlacedEvent> jumps =
        of(space, SoundSource.LINE).stream().filter(e -> e.midiPitch().orElse(0) > 75).toList();
    assertThat(jumps).hasSize(8);
    for (int i = 0; i < 8; i++) {
      assertThat(jumps.get(i).placement()).isCloseTo(i % 2 == 0 ? -0.7 : 0.7, within(0.08));
    }
  }

  @Test
  void strokesOfOneKindInOnePlaceAreOneEvent() {
    SoundingScene scene = new SoundingScene(8).note(0, 8, 60, 0, 0.05);
    for (double t = 0.5; t < 7; t += 0.5) {
      scene.stroke(t, 2, 0.5, 0.2);
    }
    List<PlacedEvent> struck = of(space(scene), SoundSource.STRUCK);

    assertThat(struck).hasSize(1);
    assertThat(struck.get(0).placement()).isCloseTo(0.5, within(0.08));
    assertThat(struck.get(0).span().startSeconds()).isCloseTo(0.5, within(0.05));
  }

  /**
   * Closed forms: a sound panned half way (p = 0.5) has S/M = (1 - sin 2a) / (1 + sin 2a) with a =
   * 3/8 pi; two unrelated channels have 0 dB and correlation 0, and lose as much as they should.
   */
  @Test
  void widthIsThatOfTheClosedForm() {
    double sine = Math.sin(2 * 3 * Math.PI / 8);
    Space panned = space(new SoundingScene(4).sound(0, 4, 69, 0.5, 0.2));
    Random random = new Random(1);
    Space unrelated =
        space(
            new SoundingScene(4)
                .add(0, 4, -1, t -> 0.1 * random.nextGaussian())
                .add(0, 4, 1, t -> 0.1 * random.nextGaussian()));

    assertThat(panned.bars().get(1).sideToMidDb())
        .isCloseTo(10 * Math.log10((1 - sine) / (1 + sine)), within(0.2));
    assertThat(panned.bars().get(1).band(HearingBand.LOW_MIDDLE).correlation())
        .isCloseTo(1, within(0.02));
    assertThat(unrelated.bars().get(1).sideToMidDb()).isCloseTo(0, within(0.3));
    assertThat(unrelated.bars().get(1).band(HearingBand.HIGH).correlation())
        .isCloseTo(0, within(0.1));
    assertThat(unrelated.foldDownLossDb()).isCloseTo(0, within(0.2));
  }

  @Test
  void whatIsSaidStandsAndWhatMeetsNothingIsListed() {
    SoundingScene scene = new SoundingScene(6).note(2, 3, 72, 0.6, 0.1);
    Correction said = new Correction.PlacementOver(new Span(2.2, 2.6), SoundSource.LINE, -0.5);
    Correction nowhere = new Correction.PlacementOver(new Span(4.5, 5), SoundSource.LEAD, 0);
    Derived<Space> derived =
        new PlacedSpace()
            .estimate(
                scene.features(),
                scene.reading(),
                new Corrections(
                    List.of(
                        new CorrectionEntry(1, "me", Instant.EPOCH, said),
                        new CorrectionEntry(2, "me", Instant.EPOCH, nowhere))));

    assertThat(of(derived.value(), SoundSource.LINE))
        .singleElement()
        .satisfies(event -> assertThat(event.placement()).isEqualTo(-0.5));
    assertThat(derived.unplaced()).containsExactly(nowhere);
  }
}
