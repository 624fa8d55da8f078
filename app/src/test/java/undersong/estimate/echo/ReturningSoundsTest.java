package undersong.estimate.echo;

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
import undersong.reading.Echo;
import undersong.time.Span;

/** Delays, second takes and repeats made in the test, over a held bass. */
final class ReturningSoundsTest {
  private static final int[] PHRASE = {64, 67, 69};

  private static List<Echo> echoes(SoundingScene scene) {
    return new ReturningSounds()
        .estimate(scene.features(), scene.reading(), Corrections.NONE)
        .value()
        .echoes();
  }

  /** Four phrases of three notes, each with a rest of two seconds behind it. */
  private static SoundingScene phrases() {
    SoundingScene scene = new SoundingScene(16).note(0, 16, 40, 0, 0.05);
    for (int phrase = 0; phrase < 4; phrase++) {
      for (int i = 0; i < 3; i++) {
        double start = 4 * phrase + 0.5 * i + 0.5;
        scene.lead(start, start + (i == 2 ? 0.25 : 0.45), PHRASE[i] + phrase % 2, 0, 0.15);
      }
    }
    return scene;
  }

  @ParameterizedTest
  @ValueSource(doubles = {0.375, 0.5, 0.34})
  void aDelayAtPhraseEndsIsHeardWithItsLagRepeatsAndDecay(double lag) {
    SoundingScene scene = phrases();
    for (int phrase = 0; phrase < 4; phrase++) {
      double start = 4 * phrase + 1.5;
      for (int copy = 1; copy <= 3; copy++) {
        double gain = 0.15 * Math.pow(10, -6.0 * copy / 20);
        double at = start + copy * lag;
        scene.sound(at, at + 0.25, 69 + phrase % 2, 0, gain);
      }
      scene.copies(start + lag, start + 3 * lag + 0.25, lag);
    }
    List<Echo> found = echoes(scene);

    assertThat(found).hasSize(4);
    assertThat(found)
        .allSatisfy(
            echo -> {
              assertThat(echo.kind()).isEqualTo(Echo.Kind.DELAY);
              assertThat(echo.lagSeconds()).isCloseTo(lag, within(0.012));
              assertThat(echo.decayDbPerRepeat()).isCloseTo(6, within(2.0));
              assertThat(echo.repeats().size()).isBetween(2, 5);
            });
    if (lag == 0.375) { // 120 bpm: three sixteenths
      assertThat(found.get(0).noteValue().orElseThrow()).hasToString("3/16");
      assertThat(found.get(0).lagSeconds()).isCloseTo(0.375, within(0.001));
    }
  }

  @Test
  void phrasesWithoutDelayHaveNone() {
    assertThat(echoes(phrases())).isEmpty();
  }

  @Test
  void aPhraseSungAgainFromTheSideIsNoDelay() {
    SoundingScene scene = phrases();
    Random random = new Random(3);
    for (int i = 0; i < 3; i++) {
      double start = 0.5 * i + 0.5 + 2.1 + 0.03 * random.nextGaussian();
      scene.note(start, start + 0.4, PHRASE[i], -0.7, 0.12);
    }
    List<Echo> found = echoes(scene);

    assertThat(found).hasSize(1);
    assertThat(found.get(0).kind()).isEqualTo(Echo.Kind.RESUNG);
    assertThat(found.get(0).lagSeconds()).isCloseTo(2.1, within(0.05));
    assertThat(found.get(0).repeats().get(0).placement()).isLessThan(-0.4);
  }

  /** The answer is heard, but the tune as it was followed has another note meanwhile. */
  @Test
  void aPhraseSungAgainIsHeardUnderChordsAndWhileTheTuneGoesOn() {
    SoundingScene scene = phrases();
    for (int bar = 0; bar < 8; bar++) {
      scene.note(2 * bar, 2 * bar + 2, 59, 0, 0.05).note(2 * bar, 2 * bar + 2, 62, 0, 0.05);
    }
    for (int i = 0; i < 3; i++) {
      double start = 0.5 * i + 2.6 + 0.02 * (i - 1);
      scene.note(start, start + 0.4, PHRASE[i], 0.6, 0.12);
    }
    scene.lead(3.3, 3.5, 71, 0, 0.05);
    List<Echo> found = echoes(scene);

    assertThat(found).hasSize(1);
    assertThat(found.get(0).kind()).isEqualTo(Echo.Kind.RESUNG);
    assertThat(found.get(0).span().startSeconds()).isCloseTo(0.5, within(0.05));
    assertThat(found.get(0).repeats().get(0).placement()).isCloseTo(0.6, within(0.1));
  }

  /** What an accompaniment at the side plays in every bar, tune or none, answers nobody. */
  @Test
  void aFigureThatAlwaysStandsAtTheSideIsNoAnswer() {
    SoundingScene scene = phrases();
    for (int bar = 0; bar < 8; bar++) {
      for (int i = 0; i < 3; i++) {
        double start = 2 * bar + 0.5 * i + 0.5;
        scene.note(start, start + 0.4, PHRASE[i], 0.6, 0.06);
      }
    }

    assertThat(echoes(scene)).noneMatch(echo -> echo.kind() == Echo.Kind.RESUNG);
  }

  @Test
  void twoTakesLeftAndRightAreADouble() {
    SoundingScene twice = new SoundingScene(8).section(0, 8, "A");
    SoundingScene once = new SoundingScene(8).section(0, 8, "A");
    Random random = new Random(5);
    for (int i = 0; i < 14; i++) {
      double start = 0.5 + 0.5 * i;
      int midi = 60 + i % 5;
      double late = 0.015 + 0.005 * random.nextGaussian();
      twice
          .note(start, start + 0.45, midi, -0.8, 0.1)
          .add(
              start + late,
              start + late + 0.45,
              0.8,
              t -> {
                double hertz = 440 * Math.pow(2, (midi - 69 + 0.08) / 12.0);
                double sum = 0;
                for (int partial = 1; partial <= 8; partial++) {
                  sum += Math.sin(2 * Math.PI * partial * hertz * t + 2 * partial) / partial;
                }
                return 0.1 * Math.min(1, t / 0.01) * sum;
              });
      once.note(start, start + 0.45, midi, -0.1, 0.1);
    }
    List<Echo> found = echoes(twice);

    assertThat(found).hasSize(1);
    assertThat(found.get(0).kind()).isEqualTo(Echo.Kind.DOUBLE);
    assertThat(found.get(0).lagSeconds()).isBetween(0.005, 0.04);
    assertThat(echoes(once)).isEmpty();
  }

  /** A verse in the middle; a chorus in which a guitar is played twice under the same keys. */
  @Test
  void aDoubleIsHeardWhereItBeginsWhateverTheSectionsAre() {
    SoundingScene scene = new SoundingScene(24).section(0, 24, "A");
    Random random = new Random(7);
    for (int i = 0; i < 46; i++) {
      double start = 0.5 + 0.5 * i;
      int midi = 60 + i % 5;
      scene.note(start, start + 0.45, midi, -0.05, 0.1);
      if (start >= 12 && start < 20) {
        int above = midi + 7;
        scene.note(start, start + 0.45, above, -0.8, 0.06);
        double late = start + 0.015 + 0.005 * random.nextGaussian();
        double hertz = 440 * Math.pow(2, (above - 69 + 0.08) / 12.0);
        scene.add(
            late,
            late + 0.45,
            0.8,
            t -> {
              double sum = 0;
              for (int partial = 1; partial <= 8; partial++) {
                sum += Math.sin(2 * Math.PI * partial * hertz * t + 2 * partial) / partial;
              }
              return 0.06 * Math.min(1, t / 0.01) * sum;
            });
      }
    }
    List<Echo> found = echoes(scene);

    assertThat(found).hasSize(1);
    assertThat(found.get(0).kind()).isEqualTo(Echo.Kind.DOUBLE);
    assertThat(found.get(0).span().startSeconds()).isCloseTo(12, within(2.1));
    assertThat(found.get(0).span().endSeconds()).isCloseTo(20, within(2.5));
  }

  /** Keys that strike the lead's notes again after half a bar, softer each time. */
  @Test
  void chordsThatComeBackOnTheGridAreNoDelayOfTheLead() {
    SoundingScene scene = new SoundingScene(24);
    int[] roots = {60, 62, 64, 65, 67, 69};
    for (int phrase = 0; phrase < 6; phrase++) {
      double start = 4 * phrase + 0.5;
      scene.lead(start, start + 0.45, roots[phrase] + 12, 0, 0.15);
      for (int strike = 0; strike < 3; strike++) {
        double at = start + strike;
        double gain = 0.1 * Math.pow(0.6, strike);
        for (int above : new int[] {5, 9, 12}) {
          scene.note(at, at + 0.45, roots[phrase] + above, 0, gain);
        }
      }
    }

    assertThat(echoes(scene)).isEmpty();
  }

  @Test
  void whatIsSaidStands() {
    Correction none = new Correction.NoEchoOver(new Span(1, 3));
    Correction said = new Correction.EchoOver(new Span(5, 7), Echo.Kind.RESUNG, 0.8);
    SoundingScene scene = phrases();
    Derived<undersong.reading.Echoes> derived =
        new ReturningSounds()
            .estimate(
                scene.features(),
                scene.reading(),
                new Corrections(
                    List.of(
                        new CorrectionEntry(1, "me", Instant.EPOCH, none),
                        new CorrectionEntry(2, "me", Instant.EPOCH, said))));

    assertThat(derived.unplaced()).containsExactly(none);
    assertThat(derived.value().echoes())
        .singleElement()
        .satisfies(
            echo -> {
              assertThat(echo.kind()).isEqualTo(Echo.Kind.RESUNG);
              assertThat(echo.probability()).isEqualTo(1);
            });
  }
}
