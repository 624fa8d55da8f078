package undersong.reading;

import undersong.time.Span;

/**
 * A stretch between two boundaries.
 *
 * @param letter the same letter = the same music
 * @param occurrence 1 for the first section of its letter, 2 for the second ...
 * @param transposedSemitones against the first section of its letter
 * @param probability that its boundaries and sameness are right
 */
public record Section(
    Span span,
    int firstBar,
    int lastBar,
    String letter,
    int occurrence,
    int transposedSemitones,
    double probability) {
  public Section {
    if (letter.isBlank() || occurrence < 1 || lastBar < firstBar) {
      throw new IllegalArgumentException(
          "Section \"%s\" (occurrence %d, bars %d to %d) needs a letter, an occurrence from 1, and bars in order."
              .formatted(letter, occurrence, firstBar, lastBar));
    }
    Probability.check(probability);
  }

  Object essence() {
    return java.util.List.of(span, firstBar, lastBar, letter, occurrence, transposedSemitones);
  }
}
