package undersong.estimate.texture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import undersong.estimate.SoundingScene;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Ducking;
import undersong.reading.Gesture;
import undersong.reading.HearingBand;
import undersong.reading.Layer;
import undersong.reading.LayerKind;
import undersong.reading.Texture;
import undersong.time.Span;

final class LayeredTextureTest {
  private static Derived<Texture> derived(SoundingScene scene, Correction... said) {
    List<CorrectionEntry> entries = new java.util.ArrayList<>();
    for (Correction correction : said) {
      entries.add(new CorrectionEntry(entries.size() + 1, "me", Instant.EPOCH, correction));
    }
    return new LayeredTexture(RestSettings.DEFAULTS)
        .estimate(scene.features(), scene.reading(), new Corrections(entries));
  }

  private static Texture texture(SoundingScene scene) {
    return derived(scene).value();
  }

  /** Drums through bars 3 to 6 of ten, bass through all but bars 5 to 7. */
  private static SoundingScene band() {
    SoundingScene scene = new SoundingScene(20).note(0, 20, 60, 0, 0.05);
    for (int beat = 8; beat < 24; beat++) {
      scene.stroke(beat / 2.0, beat % 2, 0, 0.3).stroke(beat / 2.0 + 0.25, 2, 0, 0.2);
    }
    for (int bar = 0; bar < 10; bar++) {
      if (bar < 4 || bar > 6) {
        scene.bass(2 * bar, 2 * bar + 0.9, 36).bass(2 * bar + 1, 2 * bar + 1.9, 38);
      }
    }
    return scene;
  }

  @Test
  void layersEnterAndLeaveWithinHalfABar() {
    Texture texture = texture(band());

    for (LayerKind drum : List.of(LayerKind.KICK, LayerKind.SNARE, LayerKind.CYMBAL)) {
      assertThat(texture.of(drum)).as(drum.words()).hasSize(1);
      Span span = texture.of(drum).get(0).span();
      assertThat(span.startSeconds()).isCloseTo(4, within(1.0));
      assertThat(span.endSeconds()).isCloseTo(12, within(1.0));
    }
    assertThat(texture.of(LayerKind.BASS).stream().map(Layer::span))
        .satisfiesExactly(
            early -> assertThat(early.endSeconds()).isCloseTo(8, within(0.5)),
            late -> assertThat(late.startSeconds()).isCloseTo(14, within(0.5)));
    assertThat(texture.of(LayerKind.LEAD)).isEmpty();
  }

  /** One kick and one snare a bar, as far as they are heard under loud guitars, in bars 3 to 8. */
  @Test
  void kickAndSnareKeepEachOtherCompany() {
    SoundingScene scene = new SoundingScene(20).note(0, 20, 60, 0, 0.05);
    for (int bar = 2; bar < 8; bar++) {
      scene.stroke(2 * bar, 0, 0, 0.3).stroke(2 * bar + 1.5, 1, 0, 0.3);
    }

    Texture texture = texture(scene);

    assertThat(texture.of(LayerKind.KICK).stream().map(Layer::span))
        .singleElement()
        .satisfies(kick -> assertThat(kick.startSeconds()).isCloseTo(4, within(1.0)))
        .satisfies(kick -> assertThat(kick.endSeconds()).isCloseTo(16, within(2.0)));
    assertThat(texture.of(LayerKind.SNARE)).hasSize(1);
  }

  @Test
  void aFewStrokesWithinABarAreNoDrummer() {
    SoundingScene scene = new SoundingScene(20).note(0, 20, 60, 0, 0.05);
    for (int stroke = 0; stroke < 6; stroke++) {
      scene.stroke(8 + stroke * 0.25, stroke % 2, 0, 0.3);
    }

    assertThat(texture(scene).of(LayerKind.KICK)).isEmpty();
    assertThat(texture(scene).of(LayerKind.SNARE)).isEmpty();
  }

  @Test
  void whatIsSaidOfALayerStands() {
    Span out = new Span(6, 8);
    Span in = new Span(14, 16);
    Correction behind = new Correction.LayerOver(new Span(99, 100), LayerKind.BASS, true);
    Derived<Texture> derived =
        derived(
            band(),
            new Correction.LayerOver(out, LayerKind.KICK, false),
            new Correction.LayerOver(in, LayerKind.KICK, true),
            behind);
    Texture texture = derived.value();

    assertThat(texture.layerAt(LayerKind.KICK, 7)).isEmpty();
    assertThat(texture.layerAt(LayerKind.KICK, 5)).isPresent();
    assertThat(texture.layerAt(LayerKind.KICK, 9)).isPresent();
    assertThat(texture.layerAt(LayerKind.KICK, 15)).isPresent();
    assertThat(texture.layerAt(LayerKind.SNARE, 7)).isPresent();
    assertThat(derived.unplaced()).containsExactly(behind);
  }

  @Test
  void pluckedNotesAreToldFromHeldOnes() {
    SoundingScene scene =
        new SoundingScene(16).note(0, 7.9, 55, 0, 0.05).note(8, 15.9, 59, 0, 0.05);
    for (double t = 8; t < 15.8; t += 0.25) {
      int midi = 72 + (int) (4 * t) % 3 * 4;
      double hertz = 440 * Math.pow(2, (midi - 69) / 12.0);
      // 60 dB in 0.25 s
      scene
          .note(t, t + 0.2, midi, 0.3, 0.0001)
          .add(
              t,
              t + 0.25,
              0.3,
              x -> 0.2 * Math.pow(10, -3 * x / 0.25) * Math.sin(2 * Math.PI * hertz * x));
    }
    List<Layer> plucked = texture(scene).of(LayerKind.PLUCKED);

    assertThat(plucked).hasSize(1);
    assertThat(plucked.get(0).span().startSeconds()).isCloseTo(8, within(1.0));
    assertThat(plucked.get(0).decaySeconds().orElseThrow()).isCloseTo(0.25, within(0.1));
  }

  /** A pad that ducks by 12 dB below a voice and cymbals that do not. */
  @Test
  void duckingIsHeardBelowAVoiceThatDoesNotDuck() {
    SoundingScene scene = new SoundingScene(24);
    SoundingScene begun = new SoundingScene(24);
    for (double beat = 0; beat < 23.5; beat += 0.5) {
      for (SoundingScene each : List.of(scene, begun)) {
        each.stroke(beat, 0, 0, 0.3).stroke(beat, 2, 0, 0.2);
      }
    }
    for (int partial = 1; partial < 9; partial++) {
      double pad = 260.0 * partial;
      double voice = 700.0 * partial;
      double amplitude = 0.1 / (partial * partial);
      double sung = 0.05 / partial;
      scene.add(
          0,
          24,
          0.2,
          t -> {
            double since = t % 0.5;
            double gainDb = since < 0.01 ? -12 * since / 0.01 : -12 * Math.max(0, 1 - since / 0.3);
            return amplitude * Math.pow(10, gainDb / 20) * Math.sin(2 * Math.PI * pad * t);
          });
      // notes that begin slowly with each kick, after a gap
      begun.add(
          0,
          24,
          0.2,
          t -> {
            double since = t % 0.5;
            double gain = since > 0.4 ? 0.03 : Math.max(0.03, Math.min(1, since / 0.15));
            return amplitude * gain * Math.sin(2 * Math.PI * pad * t);
          });
      for (SoundingScene each : List.of(scene, begun)) {
        each.add(0, 24, 0, t -> sung * Math.sin(2 * Math.PI * voice * t));
      }
    }

    assertThat(texture(scene).ducking()).hasSize(1);
    assertThat(texture(scene).ducking().get(0).span().lengthSeconds()).isGreaterThan(16);
    assertThat(texture(begun).ducking()).isEmpty();
  }

  /** A gain that falls by 6 dB at each kick and comes back within 0.3 s. */
  @Test
  void duckingIsHeardWithItsDepthAndNotWhereNothingDucks() {
    SoundingScene ducked = new SoundingScene(24);
    SoundingScene steady = new SoundingScene(24);
    for (double beat = 0; beat < 23.5; beat += 0.5) {
      ducked.stroke(beat, 0, 0, 0.3);
      steady.stroke(beat, 0, 0, 0.3);
    }
    for (int partial = 1; partial < 12; partial++) {
      double hertz = 220.0 * partial;
      double amplitude = 0.1 / partial;
      ducked.add(
          0,
          24,
          0.2,
          t -> {
            double since = t % 0.5;
            double gainDb = since < 0.01 ? -6 * since / 0.01 : -6 * Math.max(0, 1 - since / 0.3);
            return amplitude * Math.pow(10, gainDb / 20) * Math.sin(2 * Math.PI * hertz * t);
          });
      steady.add(0, 24, 0.2, t -> amplitude * Math.sin(2 * Math.PI * hertz * t));
    }
    List<Ducking> found = texture(ducked).ducking();

    assertThat(found).hasSize(1);
    assertThat(found.get(0).depthDb()).isCloseTo(6, within(1.5));
    assertThat(found.get(0).span().lengthSeconds()).isGreaterThan(16);
    assertThat(texture(steady).ducking()).isEmpty();
  }

  /** Nothing stands before the first moment of a recording; a kick there has silence before it. */
  @Test
  void aKickAtTheVeryBeginningIsNoFault() {
    SoundingScene scene = new SoundingScene(24);
    for (double time = 0.02; time < 23.5; time += 0.5) {
      scene.stroke(time, 0, 0, 0.3);
    }
    scene.note(0, 24, 57, 0, 0.1);

    assertThat(texture(scene).ducking()).isEmpty();
  }

  @Test
  void aFullStopIsHeard() {
    SoundingScene scene = new SoundingScene(20);
    for (double t = 0; t < 20; t += 0.5) {
      if (t < 10 || t >= 11) {
        scene.note(t, t + 0.48, 57 + (int) t % 5, 0, 0.1);
      }
    }
    List<Gesture> stops =
        texture(scene).gestures().stream().filter(g -> g.kind() == Gesture.Kind.STOP).toList();

    assertThat(stops).hasSize(1);
    assertThat(stops.get(0).span().startSeconds()).isCloseTo(10, within(0.15));
    assertThat(stops.get(0).span().endSeconds()).isCloseTo(11, within(0.15));
  }

  @Test
  void noiseThatClimbsIntoASectionIsARiserAndAFilterThatOpensIsNone() {
    Random random = new Random(7);
    SoundingScene riser =
        new SoundingScene(18).note(0, 18, 60, 0, 0.05).section(0, 12, "A").section(12, 18, "B");
    riser.add(4, 12, 0, t -> 0.2 * Math.pow(10, -2 * (1 - t / 8)) * random.nextGaussian());
    SoundingScene opening = new SoundingScene(16).section(0, 12, "A").section(12, 16, "B");
    for (int partial = 1; partial < 30; partial++) {
      double hertz = 220.0 * partial;
      double amplitude = 0.1 / Math.sqrt(partial);
      // a corner that slides from 300 Hz to 6 kHz between seconds 4 and 12
      opening.add(
          0,
          16,
          0,
          t -> {
            double corner = 300 * Math.pow(20, Math.max(0, Math.min(1, (t - 4) / 8)));
            double gain = 1 / (1 + Math.pow(hertz / corner, 4));
            return amplitude * gain * Math.sin(2 * Math.PI * hertz * t + hertz);
          });
    }
    List<Gesture> rising = texture(riser).gestures();
    List<Gesture> opened = texture(opening).gestures();

    assertThat(rising)
        .anySatisfy(
            gesture -> {
              assertThat(gesture.kind()).isEqualTo(Gesture.Kind.RISER);
              assertThat(gesture.span().endSeconds()).isCloseTo(12, within(0.3));
            });
    assertThat(opened)
        .singleElement()
        .satisfies(
            gesture -> {
              assertThat(gesture.kind()).isEqualTo(Gesture.Kind.OPENING);
              assertThat(gesture.octaves()).isGreaterThan(2);
              assertThat(gesture.span().overlapSeconds(new Span(4, 12))).isGreaterThan(5);
            });
  }

  @Test
  void aClimbIntoABarLineIsARiserThoughNoSectionIsHeardToBeginThere() {
    Random random = new Random(7);
    SoundingScene scene = new SoundingScene(18).note(0, 18, 60, 0, 0.05).section(0, 18, "A");
    scene.add(4, 12, 0, t -> 0.2 * Math.pow(10, -2 * (1 - t / 8)) * random.nextGaussian());

    assertThat(texture(scene).gestures())
        .anySatisfy(
            gesture -> {
              assertThat(gesture.kind()).isEqualTo(Gesture.Kind.RISER);
              assertThat(gesture.span().endSeconds()).isCloseTo(12, within(0.3));
            });
  }

  /**
   * Noise above 9 kHz that grows by 16 dB within a bar, while cymbals go on and the form is one.
   */
  @Test
  void aSwellOfOneBarIsHeardAboveTheCymbals() {
    SoundingScene scene = new SoundingScene(18).note(0, 18, 60, 0, 0.05).section(0, 18, "A");
    for (double beat = 0; beat < 18; beat += 0.5) {
      scene.stroke(beat, 2, 0, 0.02);
    }
    Random random = new Random(7);
    double[] phases = random.doubles(60, 0, 6.28).toArray();
    scene.add(
        10,
        12,
        0,
        t -> {
          double sum = 0;
          for (int i = 0; i < phases.length; i++) {
            sum += Math.sin(2 * Math.PI * (9200 + 90.7 * i) * t + phases[i]);
          }
          return 0.004 * Math.pow(10, -1.0 * (1 - t / 2)) * sum;
        });

    assertThat(texture(scene).gestures())
        .anySatisfy(
            gesture -> {
              assertThat(gesture.kind()).isEqualTo(Gesture.Kind.SWELL);
              assertThat(gesture.span().startSeconds()).isCloseTo(10, within(0.6));
              assertThat(gesture.span().endSeconds()).isCloseTo(12, within(0.1));
            });
  }

  /** Highs that are emptied and come back are a filter; those that die with the song are not. */
  @Test
  void aFilterOverEverythingIsSurerThanOneThatMovesLittle() {
    SoundingScene opening = new SoundingScene(20).section(0, 20, "A");
    SoundingScene dying = new SoundingScene(20).section(0, 20, "A");
    for (int partial = 1; partial < 40; partial++) {
      double hertz = 220.0 * partial;
      double amplitude = 0.1 / Math.sqrt(partial);
      opening.add(
          0,
          20,
          0,
          t -> {
            double corner = 300 * Math.pow(30, Math.max(0, Math.min(1, t / 8)));
            return amplitude
                / (1 + Math.pow(hertz / corner, 4))
                * Math.sin(2 * Math.PI * hertz * t + hertz);
          });
      double fall = 0.02 * hertz / 220;
      dying.add(
          0,
          20,
          0,
          t ->
              amplitude
                  * Math.exp(-fall * Math.max(0, t - 12) * 4)
                  * Math.sin(2 * Math.PI * hertz * t + hertz));
    }

    assertThat(texture(opening).gestures())
        .singleElement()
        .satisfies(
            gesture -> {
              assertThat(gesture.kind()).isEqualTo(Gesture.Kind.OPENING);
              assertThat(gesture.probability()).isGreaterThan(0.7);
            });
    assertThat(texture(dying).gestures()).noneMatch(g -> g.kind() == Gesture.Kind.CLOSING);
  }

  /**
   * Two parts at the sides behind a low-pass filter (|H|^2 = 1 / (1 + (f / corner)^4): Butterworth
   * of the second order, from memory) whose corner climbs from 400 Hz to 8 kHz in two bars; a voice
   * and cymbals in the middle stay bright.
   */
  private static SoundingScene sides(boolean filtered) {
    SoundingScene scene = new SoundingScene(32).section(0, 32, "A");
    for (double at = 0; at < 32; at += 0.5) {
      scene.stroke(at, 2, 0, 0.05).lead(at, at + 0.45, 64 + (int) at % 3, 0, 0.1);
      double start = at;
      for (int side = -1; side <= 1; side += 2) {
        double root = side < 0 ? 261.6 : 311.1;
        scene.add(
            at,
            at + 0.5,
            0.8 * side,
            t -> {
              double open = filtered ? Math.max(0, Math.min(1, (start + t - 12) / 4)) : 1;
              double corner = start + t < 12 ? 8000 : 400 * Math.pow(20, open);
              double sum = 0;
              for (int partial = 1; partial <= 28; partial++) {
                double hertz = partial * root;
                double gain = 1 / Math.sqrt(1 + Math.pow(hertz / corner, 4));
                sum += gain / partial * Math.sin(2 * Math.PI * hertz * t + partial * partial);
              }
              return 0.05 * Math.min(1, t / 0.005) * Math.exp(-t) * sum;
            });
      }
    }
    return scene;
  }

  @Test
  void aFilterOverPartsAtTheSidesIsHeardThoughTheMiddleStaysBright() {
    assertThat(texture(sides(true)).gestures())
        .filteredOn(g -> g.kind() == Gesture.Kind.OPENING)
        .singleElement()
        .satisfies(
            gesture -> {
              assertThat(gesture.span().startSeconds()).isCloseTo(12, within(0.6));
              assertThat(gesture.span().endSeconds()).isCloseTo(16, within(1.1));
              assertThat(gesture.probability()).isGreaterThan(0.5);
            });
    assertThat(texture(sides(false)).gestures())
        .noneMatch(g -> g.kind() == Gesture.Kind.OPENING || g.kind() == Gesture.Kind.CLOSING);
  }

  /** A sine of amplitude 0.2 in both channels has an RMS of 0.1414, -17 dBFS. */
  @Test
  void barsHaveTheLevelsOfTheirBands() {
    Texture texture =
        texture(
            new SoundingScene(6)
                .add(0, 6, 0, t -> 0.2 * Math.sqrt(2) * Math.sin(2 * Math.PI * 1200 * t)));

    assertThat(texture.bars().get(1).levelDb(HearingBand.MIDDLE)).isCloseTo(-17, within(0.3));
    assertThat(texture.bars().get(1).levelDb(HearingBand.HIGH)).isLessThan(-80);
    assertThat(texture.bars().get(1).centroidHz()).isCloseTo(1200, within(20.0));
    assertThat(texture.bars().get(1).noisiness()).isLessThan(0.01);
  }

  /** Ranks that rise one by one correlate with time by 1 (Spearman's definition). */
  @Test
  void rankCorrelationIsThatOfTheDefinition() {
    assertThat(GestureFinder.spearman(new double[] {1, 2, 4, 9})).isCloseTo(1, within(1e-9));
    assertThat(GestureFinder.spearman(new double[] {4, 3, 2, 1})).isCloseTo(-1, within(1e-9));
    assertThat(GestureFinder.spearman(new double[] {1, 2, 1, 2})).isBetween(0.3, 0.6);
    assertThat(GestureFinder.spearman(new double[] {5, 5, 5})).isZero();
  }
}
