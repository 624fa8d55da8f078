package undersong.bench.render;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import undersong.bench.metrics.SungNote;
import undersong.bench.metrics.Timed;
import undersong.bench.render.Song.Device;

/** What is written down of a production against what is played and mixed. */
class ProductionTest {
  private static Arrangement arrange(String chart, Style style, Device... devices)
      throws IOException {
    Song song =
        new Song(
            chart, 0, 99, style.name(), 110, 1, 0, 0, 0, Song.Lead.VOWELS, false, Set.of(devices));
    return Arrangement.of(song, new Charts().find(chart));
  }

  /** Truth with levels of a mix in which every part hums a note of its own throughout. */
  private static Staging staging(Arrangement arrangement) {
    int length = (int) (arrangement.endSeconds() * Wave.RATE_HZ);
    List<float[]> signals = new ArrayList<>();
    for (int p = 0; p < arrangement.parts().size(); p++) {
      float[] hum = new float[length];
      for (int i = 0; i < length; i++) {
        hum[i] = (float) (0.1 * Math.sin((0.03 + 0.007 * p) * i));
      }
      signals.add(hum);
    }
    return StagingWriter.write(
        arrangement,
        Mixer.clean(
                arrangement.parts(),
                signals,
                Ducker.of(arrangement),
                arrangement.production().rooms())
            .levels());
  }

  @Test
  void putsShortLinesByTurnsLeftAndRight() throws IOException {
    List<Staging.Placement> lines =
        staging(arrange("own-hall-01", Style.ROCK, Device.ALTERNATE)).placements().stream()
            .filter(p -> p.part().equals("line"))
            .sorted(java.util.Comparator.comparingDouble(Staging.Placement::startSeconds))
            .toList();
    assertThat(lines).hasSizeGreaterThanOrEqualTo(12);
    for (int i = 1; i < lines.size(); i++) {
      assertThat(Math.abs(lines.get(i).placement())).isBetween(0.55, 0.95);
      assertThat(lines.get(i).placement() * lines.get(i - 1).placement()).isNegative();
      assertThat(lines.get(i).startSeconds()).isGreaterThan(lines.get(i - 1).endSeconds());
    }
  }

  @Test
  void answersWithTheSameNotesAtALagThatWanders() throws IOException {
    Arrangement arrangement = arrange("own-hall-02", Style.BALLAD, Device.ANSWER);
    Staging staging = staging(arrangement);
    List<SungNote> answers = staging.lines().get(0).notes();
    List<SungNote> lead = TruthWriter.write(arrangement, List.of(), staging).melody();
    assertThat(staging.takes()).hasSizeGreaterThan(2);
    for (Staging.Take take : staging.takes()) {
      List<SungNote> tail =
          lead.stream()
              .filter(n -> n.startSeconds() >= take.startSeconds() - 1e-6)
              .filter(n -> n.endSeconds() <= take.endSeconds() + 1e-6)
              .toList();
      for (SungNote sung : tail) {
        assertThat(answers)
            .anySatisfy(
                a -> {
                  assertThat(a.midiPitch()).isEqualTo(sung.midiPitch());
                  assertThat(a.startSeconds() - sung.startSeconds())
                      .isCloseTo(take.lagSeconds(), within(0.09));
                });
      }
      assertThat(take.lagWanderSeconds()).isBetween(0.001, 0.045);
    }
  }

  @Test
  void doublesWithinFiveToFortyMilliseconds() throws IOException {
    assertThat(staging(arrange("own-hall-03", Style.DANCE, Device.DOUBLE)).takes())
        .isNotEmpty()
        .allSatisfy(t -> assertThat(t.kind()).isEqualTo(Staging.TakeKind.DOUBLE))
        .allSatisfy(t -> assertThat(t.lagSeconds()).isBetween(0.005, 0.04));
  }

  @Test
  void addsThirdsOnlyToTheRepeat() throws IOException {
    Arrangement arrangement = arrange("own-hall-04", Style.HALF_TIME, Device.ADDITION);
    Staging staging = staging(arrangement);
    Truth truth = TruthWriter.write(arrangement, List.of(), staging);
    List<Timed<String>> verses =
        truth.sections().stream().filter(s -> s.value().equals("A")).toList();
    List<SungNote> thirds =
        staging.lines().stream()
            .filter(l -> l.part().equals("addition"))
            .findFirst()
            .orElseThrow()
            .notes();
    assertThat(thirds)
        .noneMatch(n -> n.startSeconds() < verses.get(0).endSeconds() - 1e-6)
        .hasSizeGreaterThanOrEqualTo(8);
    assertThat(staging.additions())
        .extracting(Staging.Addition::note)
        .containsAll(
            thirds.stream()
                .filter(n -> n.startSeconds() < verses.get(1).endSeconds() - 1e-6)
                .toList());
    // the third copy adds nothing to the second
    assertThat(staging.additions())
        .extracting(Staging.Addition::note)
        .doesNotContain(thirds.get(thirds.size() - 1));
  }

  @Test
  void letsLayersEnterAndLeave() throws IOException {
    Staging staging = staging(arrange("own-hall-01", Style.ROCK, Device.LAYERS));
    List<Timed<String>> drums =
        staging.layers().stream().filter(l -> l.value().equals("drums")).toList();
    assertThat(drums.get(0).startSeconds()).isGreaterThan(4);
    assertThat(staging.layers()).filteredOn(l -> l.value().equals("comping")).hasSize(1);
  }

  @Test
  void narrowsVersesAndWidensChoruses() throws IOException {
    Staging staging = staging(arrange("own-hall-02", Style.BALLAD, Device.DOUBLE, Device.WIDTH));
    assertThat(staging.sideOverMidDb().get(2).value())
        .isGreaterThan(staging.sideOverMidDb().get(0).value() + 3);
  }

  /** Constant-power panning: equal power everywhere, all of it on one side at the end. */
  @Test
  void pansWithConstantPower() {
    for (double placement : new double[] {-1, -0.6, 0, 0.35, 1}) {
      float[] x = new float[Wave.RATE_HZ];
      java.util.Arrays.fill(x, 0.1f);
      Part part =
          Part.played(
              Part.Role.LINE, 0, List.of(new PlayedNote(0, 1, 60, 90)), Strip.at(placement, 0, 0));
      Mixer mixer = Mixer.clean(List.of(part), List.of(x), new Ducker(List.of(), 0, 1), List.of());
      double left = mixer.left()[20_000];
      double right = mixer.right()[20_000];
      double full = Math.pow(10, -22 / 20.0);
      assertThat(left * left + right * right).isCloseTo(full * full, within(1e-5));
      assertThat(4 / Math.PI * Math.atan2(right, left) - 1).isCloseTo(placement, within(1e-3));
    }
  }

  @Test
  void echoesAtTheStatedDelayAndDecay() {
    float[] click = new float[2 * Wave.RATE_HZ];
    click[4410] = 1;
    Staging.Echo echo = new Staging.Echo("line", 0, 0.3, 0.25, 3, -6, -4, 20_000, true);
    Part part =
        Part.played(
            Part.Role.LINE,
            0,
            List.of(new PlayedNote(0, 1, 60, 90)),
            Strip.at(0, 0, 0).withEchoes(List.of(echo)));
    Mixer mixer =
        Mixer.clean(List.of(part), List.of(click), new Ducker(List.of(), 0, 1), List.of());
    double dry = power(mixer, 0.1);
    assertThat(10 * Math.log10(power(mixer, 0.35) / dry)).isCloseTo(-6, within(0.6));
    assertThat(10 * Math.log10(power(mixer, 0.6) / dry)).isCloseTo(-10, within(1.2));
    assertThat(power(mixer, 0.45)).isLessThan(1e-6 * dry);
    assertThat(peak(mixer.right(), 0.35)).isGreaterThan(2 * peak(mixer.left(), 0.35));
    assertThat(peak(mixer.left(), 0.6)).isGreaterThan(2 * peak(mixer.right(), 0.6));
  }

  private static double power(Mixer mixer, double seconds) {
    double sum = 0;
    for (int i = -200; i < 200; i++) {
      int at = (int) (seconds * Wave.RATE_HZ) + i;
      sum += mixer.left()[at] * mixer.left()[at] + mixer.right()[at] * mixer.right()[at];
    }
    return sum;
  }

  private static double peak(float[] x, double seconds) {
    double peak = 0;
    for (int i = -200; i < 200; i++) {
      peak = Math.max(peak, Math.abs(x[(int) (seconds * Wave.RATE_HZ) + i]));
    }
    return peak;
  }

  @Test
  void ducksByTheStatedDepthAndComesBack() {
    float[] x = new float[Wave.RATE_HZ];
    java.util.Arrays.fill(x, 1);
    new Ducker(List.of(0.5), 8, 0.2).duck(x);
    assertThat(20 * Math.log10(x[(int) (0.4 * Wave.RATE_HZ)])).isZero();
    assertThat(20 * Math.log10(x[(int) (0.506 * Wave.RATE_HZ)])).isCloseTo(-7.8, within(0.2));
    assertThat(20 * Math.log10(x[(int) (0.6 * Wave.RATE_HZ)])).isCloseTo(-4, within(0.1));
    assertThat(20 * Math.log10(x[(int) (0.75 * Wave.RATE_HZ)])).isZero();
  }

  @Test
  void sweepsAcrossItsCorner() {
    float[] x = new float[2 * Wave.RATE_HZ];
    for (int i = 0; i < x.length; i++) {
      x[i] = (float) Math.sin(2 * Math.PI * 2000 * i / Wave.RATE_HZ);
    }
    Filters.sweepLowPass(x, 0, x.length, 200, 20_000);
    assertThat(peak(x, 0.1)).isLessThan(0.05);
    assertThat(peak(x, 1.9)).isCloseTo(1, within(0.05));
  }
}
