package undersong.estimate.form;

import java.util.ArrayList;
import java.util.List;
import undersong.reading.Bar;
import undersong.reading.Meter;
import undersong.time.Span;

/**
 * The stretches that form is counted in: bars where there are any, else two-second steps. Together
 * they cover what sounds: a pick-up belongs to the first bar, what lies after the last to the last.
 */
record BarSpans(List<Span> spans, List<Integer> numbers) {
  private static final double STEP_SECONDS = 2;

  /** What sounds no longer than this before the first bar is its attack. */
  private static final double PICK_UP_SECONDS = 0.2;

  /** Number given to a stretch that is no bar. */
  static final int NO_BAR = 0;

  static BarSpans of(Meter meter, double durationSeconds) {
    List<Span> spans = new ArrayList<>();
    List<Integer> numbers = new ArrayList<>();
    for (Bar bar : meter.bars()) {
      if (bar.span().startSeconds() < durationSeconds) {
        spans.add(
            new Span(
                bar.span().startSeconds(), Math.min(bar.span().endSeconds(), durationSeconds)));
        numbers.add(bar.number());
      }
    }
    if (spans.isEmpty()) {
      int steps = (int) Math.max(1, Math.floor(durationSeconds / STEP_SECONDS));
      for (int i = 0; i < steps; i++) {
        double end = i == steps - 1 ? durationSeconds : (i + 1) * STEP_SECONDS;
        spans.add(new Span(i * STEP_SECONDS, end));
        numbers.add(NO_BAR);
      }
    }
    return new BarSpans(List.copyOf(spans), List.copyOf(numbers));
  }

  int size() {
    return spans.size();
  }

  /**
   * The span of bars {@code first} to {@code last}, stretched to the first sound of the recording
   * and to its end.
   */
  Span covering(int first, int last, double firstSoundSeconds, double durationSeconds) {
    double begin = spans.get(first).startSeconds();
    boolean pickUp = first == 0 && firstSoundSeconds < begin - PICK_UP_SECONDS;
    double start = pickUp ? firstSoundSeconds : begin;
    double end = last == size() - 1 ? durationSeconds : spans.get(last + 1).startSeconds();
    return new Span(start, end);
  }

  /** The bar whose start lies nearest to a time. */
  int nearestStart(double seconds) {
    int best = 0;
    for (int bar = 1; bar < size(); bar++) {
      if (Math.abs(spans.get(bar).startSeconds() - seconds)
          < Math.abs(spans.get(best).startSeconds() - seconds)) {
        best = bar;
      }
    }
    return best;
  }
}
