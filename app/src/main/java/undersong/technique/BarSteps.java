package undersong.technique;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.function.ToDoubleFunction;
import undersong.reading.Bar;
import undersong.reading.Meter;
import undersong.reading.Reading;
import undersong.time.Span;

/**
 * Bar lines at which something is different for a whole phrase than it was in the phrase before,
 * wherever the form draws its lines: a verse and a chorus that are heard as one section still sound
 * different.
 */
public final class BarSteps {
  private static final int PHRASE_BARS = 8;

  private final List<Bar> bars;
  private final List<SongSection> sections;
  private final int width;

  private BarSteps(List<Bar> bars, List<SongSection> sections, int width) {
    this.bars = bars;
    this.sections = sections;
    this.width = width;
  }

  /**
   * One bar line.
   *
   * @param index of the bar that begins there
   * @param change from the bars before to the bars after
   */
  public record Step(int index, double change) {}

  /** Reads METER, FORM and ROLES. */
  public static BarSteps of(Reading reading) {
    Meter meter = reading.get(undersong.reading.Facet.METER);
    return new BarSteps(
        meter.bars(), SongSection.of(reading), PHRASE_BARS / meter.usualBarsPerBar());
  }

  /** Bars of a phrase of usual length. */
  public int width() {
    return width;
  }

  /** The bars of a phrase that begins with one. */
  public BarRange range(int index) {
    int last = Math.min(bars.size(), index + width) - 1;
    return new BarRange(bars.get(index).number(), bars.get(last).number());
  }

  /** Where a phrase that begins with a bar sounds. */
  public Span span(int index) {
    int last = Math.min(bars.size(), index + width) - 1;
    return new Span(bars.get(index).span().startSeconds(), bars.get(last).span().endSeconds());
  }

  /** Whether the form has a section that begins within a bar of one. */
  public boolean isBoundary(int index) {
    int number = bars.get(index).number();
    return sections.stream().anyMatch(s -> Math.abs(s.section().firstBar() - number) <= 1);
  }

  /** Whether a bar comes whole phrases after the beginning of its section. */
  public boolean isPhraseStart(int index) {
    int number = bars.get(index).number();
    return sections.stream()
        .map(SongSection::section)
        .filter(s -> s.firstBar() <= number && number <= s.lastBar())
        .anyMatch(s -> (number - s.firstBar()) % width == 0);
  }

  /** How a phrase is called: by its bars. */
  public Sentence words(int index) {
    BarRange range = range(index);
    return Sentence.of("section.bars", range.first(), range.last());
  }

  /**
   * Steps of levels, means of powers on both sides, of which three bars in four lie on their side
   * of the middle.
   *
   * @param decibels of each bar
   */
  public List<Step> ofLevels(List<Double> decibels, double least) {
    double[] levels = decibels.stream().mapToDouble(Double::doubleValue).toArray();
    return of(
        least,
        index -> {
          int at = index.intValue();
          if (at + width > levels.length) {
            return 0;
          }
          double before = mean(levels, at - width, at);
          double after = mean(levels, at, at + width);
          double middle = (before + after) / 2;
          double sign = Math.signum(after - before);
          long wrong =
              Arrays.stream(levels, at - width, at).filter(x -> sign * (x - middle) > 0).count();
          wrong +=
              Arrays.stream(levels, at, at + width).filter(x -> sign * (x - middle) < 0).count();
          return wrong > width / 2 ? 0 : after - before;
        });
  }

  /**
   * Bar lines at which a change is at least so large and larger than at those around, in order.
   *
   * @param change at the bar line before a bar, given by its index
   */
  public List<Step> of(double least, ToDoubleFunction<Integer> change) {
    List<Step> all = new ArrayList<>();
    for (int index = width; index + width <= bars.size(); index++) {
      double here = change.applyAsDouble(index);
      if (Math.abs(here) >= least) {
        all.add(new Step(index, here));
      }
    }
    all.sort(Comparator.comparingDouble(step -> -Math.abs(step.change())));
    List<Step> peaks = new ArrayList<>();
    for (Step step : all) {
      if (peaks.stream().allMatch(p -> Math.abs(p.index() - step.index()) >= width - 1)) {
        peaks.add(step);
      }
    }
    peaks.sort(Comparator.comparingInt(Step::index));
    return peaks;
  }

  /** Steps after which the same chords come as after an earlier or later one of them. */
  public List<Step> returning(List<Step> steps, BarChords chords, double leastLikeness) {
    return steps.stream()
        .filter(
            step ->
                steps.stream()
                    .anyMatch(
                        other ->
                            other.index() != step.index()
                                && chords.likeness(step.index(), other.index(), width)
                                    >= leastLikeness))
        .toList();
  }

  /** Mean of powers, in dB. */
  private static double mean(double[] levels, int from, int end) {
    double power =
        Arrays.stream(levels, from, end).map(db -> Math.pow(10, db / 10)).average().orElse(0);
    return 10 * Math.log10(Math.max(1e-12, power));
  }
}
