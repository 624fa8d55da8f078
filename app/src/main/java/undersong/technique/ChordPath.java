package undersong.technique;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import undersong.reading.ChordSpan;
import undersong.reading.Facet;
import undersong.reading.HarmonyEvent;
import undersong.reading.Reading;
import undersong.theory.ChordSymbol.Chord;
import undersong.time.Span;

/**
 * The chords of a song in order, each with its key; silences are left out, and a chord that is
 * struck again counts once within a section. A chord that goes on into the next section counts in
 * both. Empty where no key is heard.
 */
public final class ChordPath {
  /** A silence up to this long does not separate two chords. */
  private static final double GAP_SECONDS = 1.5;

  /** A chord that reaches into a section by less than this does not sound in it. */
  private static final double INSIDE_SECONDS = 0.5;

  private final List<ChordStep> steps;

  private ChordPath(List<ChordStep> steps) {
    this.steps = List.copyOf(steps);
  }

  /** Reads CHORDS and HARMONY, and FORM where it is there. */
  public static ChordPath of(Reading reading) {
    Map<Double, HarmonyEvent> events = new HashMap<>();
    for (HarmonyEvent event : reading.get(Facet.HARMONY).events()) {
      events.put(event.span().startSeconds(), event);
    }
    List<Double> borders =
        reading
            .find(Facet.FORM)
            .map(form -> form.sections().stream().map(s -> s.span().startSeconds()).toList())
            .orElse(List.of());
    List<ChordStep> steps = new ArrayList<>();
    for (ChordSpan heard : reading.get(Facet.CHORDS).spans()) {
      HarmonyEvent event = events.get(heard.span().startSeconds());
      if (event != null && event.numeral().isPresent() && heard.symbol() instanceof Chord chord) {
        for (Span part : parts(heard.span(), borders)) {
          add(steps, new ChordStep(part, chord, heard, event, event.numeral().get()), borders);
        }
      }
    }
    return new ChordPath(steps);
  }

  /** A span cut where a section begins well inside it. */
  private static List<Span> parts(Span span, List<Double> borders) {
    List<Span> parts = new ArrayList<>();
    double start = span.startSeconds();
    for (double border : borders) {
      if (border > start + INSIDE_SECONDS && border < span.endSeconds() - INSIDE_SECONDS) {
        parts.add(new Span(start, border));
        start = border;
      }
    }
    parts.add(new Span(start, span.endSeconds()));
    return parts;
  }

  private static void add(List<ChordStep> steps, ChordStep next, List<Double> borders) {
    if (!steps.isEmpty()) {
      ChordStep last = steps.get(steps.size() - 1);
      double gap = next.span().startSeconds() - last.span().endSeconds();
      double joint = next.span().startSeconds();
      boolean acrossABorder =
          borders.stream().anyMatch(border -> Math.abs(border - joint) <= INSIDE_SECONDS);
      if (gap < 0.05
          && !acrossABorder
          && last.chord().equals(next.chord())
          && last.key().equals(next.key())) {
        Span both = new Span(last.span().startSeconds(), next.span().endSeconds());
        boolean surer = next.heard().probability() > last.heard().probability();
        ChordStep kept = surer ? next : last;
        // The event stays the first one's: the chord arrives only once.
        steps.set(
            steps.size() - 1,
            new ChordStep(both, kept.chord(), kept.heard(), last.event(), last.numeral()));
        return;
      }
    }
    steps.add(next);
  }

  public List<ChordStep> steps() {
    return steps;
  }

  public int size() {
    return steps.size();
  }

  public ChordStep get(int i) {
    return steps.get(i);
  }

  /** Whether the next chord follows this one without a lasting silence. */
  public boolean goesOn(int i) {
    return i >= 0
        && i + 1 < steps.size()
        && steps.get(i + 1).span().startSeconds() - steps.get(i).span().endSeconds() < GAP_SECONDS;
  }

  /** From the start of one step to the end of a later one. */
  public Span span(int first, int last) {
    return new Span(steps.get(first).span().startSeconds(), steps.get(last).span().endSeconds());
  }

  /** The steps that sound in the larger part of a span, by their places. */
  public List<Integer> within(Span span) {
    List<Integer> within = new ArrayList<>();
    for (int i = 0; i < steps.size(); i++) {
      Span chord = steps.get(i).span();
      if (chord.overlapSeconds(span) > 0.5 * chord.lengthSeconds()) {
        within.add(i);
      }
    }
    return within;
  }
}
