package undersong.technique;

import java.util.List;
import java.util.Optional;
import undersong.time.Span;

/**
 * One occurrence of a technique. Without evidence it cannot be made.
 *
 * @param span what to play to hear it
 * @param bars it stands in; empty where there is no pulse
 * @param probability that a listener would agree
 * @param strength how marked this occurrence is among those of its technique, 0 to 1; 0.5 where the
 *     finder makes no difference. It ranks, it does not decide.
 * @param group findings of one technique with the same group are told once, with their occurrences;
 *     such as the letter of a section that returns
 * @param summary what happens, where and by how much
 * @param under less specific names for the same notes, which this one stands for
 */
public record Finding(
    Technique technique,
    Span span,
    Optional<BarRange> bars,
    double probability,
    double strength,
    String group,
    Sentence summary,
    List<Evidence> evidence,
    List<Technique> under) {
  public Finding {
    Certainty.check(probability);
    Certainty.check(strength);
    evidence = List.copyOf(evidence);
    under = List.copyOf(under);
    if (evidence.isEmpty()) {
      throw new IllegalArgumentException(
          "Finding (%s at %s) has no evidence; say what to hear, what was measured or read."
              .formatted(technique.id(), span));
    }
    if (group.isBlank()) {
      throw new IllegalArgumentException(
          "Finding (%s at %s) needs a group, if only its own.".formatted(technique.id(), span));
    }
  }

  /** A finding as its finder sees it: nothing stands under it yet. */
  public Finding(
      Technique technique,
      Span span,
      Optional<BarRange> bars,
      double probability,
      String group,
      Sentence summary,
      List<Evidence> evidence) {
    this(technique, span, bars, probability, 0.5, group, summary, evidence, List.of());
  }

  public Finding withProbability(double other) {
    return new Finding(technique, span, bars, other, strength, group, summary, evidence, under);
  }

  public Finding withUnder(List<Technique> others) {
    return new Finding(
        technique, span, bars, probability, strength, group, summary, evidence, others);
  }

  public Finding withStrength(double other) {
    return new Finding(technique, span, bars, probability, other, group, summary, evidence, under);
  }
}
