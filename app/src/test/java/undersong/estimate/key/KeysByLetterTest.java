package undersong.estimate.key;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import undersong.reading.Form;
import undersong.reading.Section;
import undersong.time.Span;

/** Sections of eight bars of a second each; what is heard is written down bar by bar. */
class KeysByLetterTest {
  private static final int D = 2;
  private static final int F = 5;
  private static final double[] BARS = IntStream.rangeClosed(0, 32).asDoubleStream().toArray();

  private static Form form(int... semitones) {
    List<Section> sections = new ArrayList<>();
    for (int i = 0; i < 4; i++) {
      Span span = new Span(8 * i, 8 * i + 8);
      String letter = i % 2 == 0 ? "A" : "B";
      sections.add(new Section(span, 8 * i + 1, 8 * i + 8, letter, i / 2 + 1, semitones[i], 0.9));
    }
    return new Form(sections);
  }

  /** Every bar of a section speaks for its key by a share of a nat. */
  private static float[][] evidence(float nats, int... keys) {
    float[][] evidence = new float[32][TonicEvidence.KEYS];
    for (int bar = 0; bar < evidence.length; bar++) {
      evidence[bar][keys[bar / 8]] = nats;
    }
    return evidence;
  }

  private static int[] decided(float[][] evidence, Form form) {
    int[] path = new int[32];
    Arrays.fill(path, D);
    float[][] motion = KeyCounts.standard().motion(0.1);
    return KeysByLetter.decided(path, evidence, motion, 3.5, form, BARS);
  }

  private static int[] bySection(int... keys) {
    return IntStream.range(0, 32).map(bar -> keys[bar / 8]).toArray();
  }

  @Test
  void aLetterHasItsOwnKeyWhereAllItsSectionsPayForIt() {
    Form form = form(0, 0, 0, 0);
    assertThat(decided(evidence(0.8F, D, F, D, F), form)).isEqualTo(bySection(D, F, D, F));
  }

  @Test
  void oneSectionOfTheTwoIsNotEnough() {
    Form form = form(0, 0, 0, 0);
    assertThat(decided(evidence(0.8F, D, F, D, D), form)).isEqualTo(bySection(D, D, D, D));
    assertThat(decided(evidence(0.3F, D, F, D, F), form)).isEqualTo(bySection(D, D, D, D));
  }

  @Test
  void aSectionThatComesBackHigherTakesItsKeyAlong() {
    int[] keys = decided(evidence(0.8F, D, F, D, F + 2), form(0, 0, 0, 2));
    assertThat(keys).isEqualTo(bySection(D, F, D, F + 2));
  }
}
