package undersong.technique;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import undersong.reading.Facet;
import undersong.time.Span;

/**
 * A finding being put together; {@link #make()} refuses one that has no evidence or no sentence.
 */
public final class FindingDraft {
  private final Technique technique;
  private final Span span;
  private final List<Evidence> evidence = new ArrayList<>();
  private Optional<BarRange> bars = Optional.empty();
  private Optional<Sentence> summary = Optional.empty();
  private double probability = 1;
  private double strength = 0.5;
  private String group;

  private FindingDraft(Technique technique, Span span) {
    this.technique = technique;
    this.span = span;
    this.group = technique.id();
  }

  public static FindingDraft of(Technique technique, Span span) {
    return new FindingDraft(technique, span);
  }

  public FindingDraft bars(Optional<BarRange> range) {
    bars = range;
    return this;
  }

  /** What it rests on: the product of these. */
  public FindingDraft sure(double... probabilities) {
    probability = Certainty.all(probabilities);
    return this;
  }

  /** How marked it is, cut to 0 to 1. */
  public FindingDraft strength(double howMarked) {
    strength = Math.max(0, Math.min(1, howMarked));
    return this;
  }

  /** Told once with the others of the technique that have this group. */
  public FindingDraft group(String name) {
    group = technique.id() + " " + name;
    return this;
  }

  /** The summary: a key without the technique's id and the dot before it. */
  public FindingDraft says(String key, Object... arguments) {
    summary = Optional.of(sentence(key, arguments));
    return this;
  }

  /** What to listen for in the whole span. */
  public FindingDraft hear(String key, Object... arguments) {
    return hear(span, key, arguments);
  }

  public FindingDraft hear(Span where, String key, Object... arguments) {
    evidence.add(new Evidence.Heard(where, sentence(key, arguments)));
    return this;
  }

  public FindingDraft atLeast(String quantity, double value, double limit, String unit) {
    evidence.add(Evidence.Measured.atLeast(sentence(quantity), value, limit, unit));
    return this;
  }

  public FindingDraft atMost(String quantity, double value, double limit, String unit) {
    evidence.add(Evidence.Measured.atMost(sentence(quantity), value, limit, unit));
    return this;
  }

  public FindingDraft read(Facet<?> facet, Span where, String value) {
    evidence.add(new Evidence.Read(facet, where, value));
    return this;
  }

  public Finding make() {
    return new Finding(
        technique,
        span,
        bars,
        probability,
        strength,
        group,
        summary.orElseThrow(
            () -> new IllegalStateException("Finding %s says nothing.".formatted(technique.id()))),
        evidence,
        List.of());
  }

  private Sentence sentence(String key, Object... arguments) {
    return Sentence.of(technique.id() + "." + key, arguments);
  }
}
