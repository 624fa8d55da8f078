package undersong.reading;

import undersong.time.Span;

/**
 * One bar.
 *
 * @param number from 1; a pick-up before the first full bar is bar 0
 * @param firstBeat index into the beat grid of its downbeat
 * @param beats beats it holds
 * @param signature it stands in
 */
public record Bar(int number, int firstBeat, int beats, TimeSignature signature, Span span) {
  public Bar {
    if (number < 0 || firstBeat < 0 || beats < 1) {
      throw new IllegalArgumentException(
          "Bar %d (first beat %d, %d beats) needs number and first beat from 0 and at least one beat."
              .formatted(number, firstBeat, beats));
    }
  }
}
