package undersong.technique;

import java.util.Optional;
import undersong.reading.Bar;
import undersong.reading.Facet;
import undersong.reading.Meter;
import undersong.reading.Reading;
import undersong.time.BeatGrid;
import undersong.time.Span;

/**
 * Beats and bars of a reading together: where in the bar a time is, how long a span is in beats.
 */
public final class Pulse {
  private final BeatGrid grid;
  private final Meter meter;
  private final double beatsProbability;

  private Pulse(BeatGrid grid, Meter meter, double beatsProbability) {
    this.grid = grid;
    this.meter = meter;
    this.beatsProbability = beatsProbability;
  }

  /** Reads BEATS and METER. */
  public static Pulse of(Reading reading) {
    var beats = reading.get(Facet.BEATS);
    return new Pulse(beats.grid(), reading.get(Facet.METER), beats.probability());
  }

  /** Whether there are beats and bars at all; ask first. */
  public boolean isThere() {
    return !grid.isEmpty() && !meter.bars().isEmpty();
  }

  public BeatGrid grid() {
    return grid;
  }

  public Meter meter() {
    return meter;
  }

  /** That the beats are right. */
  public double beatsProbability() {
    return beatsProbability;
  }

  /** That the bar lines are right. */
  public double barsProbability() {
    return meter.probability();
  }

  public double beats(Span span) {
    return grid.positionAt(span.endSeconds()) - grid.positionAt(span.startSeconds());
  }

  /** Beats from one time to a later one. */
  public double beats(double fromSeconds, double toSeconds) {
    return grid.positionAt(toSeconds) - grid.positionAt(fromSeconds);
  }

  /** Beats in a bar of the main signature. */
  public int beatsPerBar() {
    return meter.mainSignature().beats();
  }

  public Optional<BarRange> bars(Span span) {
    return BarRange.of(meter, span);
  }

  /** How many bars' worth of beats a span lasts. */
  public double lengthBars(Span span) {
    return beats(span) / beatsPerBar();
  }

  /**
   * How many bars of a usual length a span lasts, where the beat may be felt half as fast ({@link
   * Meter#usualBarsPerBar}).
   */
  public double usualBars(Span span) {
    return meter.usualBarsPerBar() * lengthBars(span);
  }

  /** Beats since the bar line, from 0; empty outside all bars. */
  public Optional<Double> beatInBar(double seconds) {
    return meter.barAt(seconds).map(bar -> grid.positionAt(seconds) - bar.firstBeat());
  }

  /**
   * Whether a time is within a quarter of a beat of a strong beat: a bar line, or the middle of a
   * bar of four or six.
   */
  public boolean isStrong(double seconds) {
    double position = grid.positionAt(seconds);
    return meter
        .barAt(grid.secondsAtPosition(Math.max(0, position + 0.25)))
        .map(bar -> isStrongIn(bar, position - bar.firstBeat()))
        .orElse(false);
  }

  private static boolean isStrongIn(Bar bar, double beat) {
    boolean middle = bar.beats() % 2 == 0 && bar.beats() >= 4;
    return Math.abs(beat) <= 0.25 || (middle && Math.abs(beat - bar.beats() / 2.0) <= 0.25);
  }
}
