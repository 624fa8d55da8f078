package undersong.reading;

import java.util.List;
import java.util.Optional;
import undersong.time.Span;

/**
 * A figure that comes back.
 *
 * @param part that has it: {@code bass}, {@code melody}, {@code voice-2}, {@code line-1} ...
 * @param cell its notes as first heard
 * @param occurrences in order of time, the first being the one the others are told against
 * @param riff whether it goes round: the same one or two bars again and again
 * @param probability that this is one figure and no accident
 */
public record Motif(
    String part,
    List<CellNote> cell,
    List<Occurrence> occurrences,
    boolean riff,
    double probability) {
  public Motif {
    cell = List.copyOf(cell);
    occurrences = List.copyOf(occurrences);
    if (cell.size() < 2 || occurrences.size() < 2) {
      throw new IllegalArgumentException(
          "A motif of %d notes heard %d times is none; it needs two notes and a return."
              .formatted(cell.size(), occurrences.size()));
    }
    Probability.check(probability);
  }

  /**
   * @param onsetBeats from the figure's first onset
   * @param semitones from its first note
   */
  public record CellNote(double onsetBeats, double lengthBeats, int semitones) {}

  /** How a copy relates to the first. */
  public enum Likeness {
    /** At the same pitch. */
    EXACT,
    /** Moved by as much as the chord's root: the figure is carried to the next chord. */
    FOLLOWS_ROOT,
    /** Moved by steps of the scale, or by a constant interval while the chord does not say so. */
    SCALE_STEP,
    /** The same rhythm, its notes refitted to another chord. */
    ADAPTED
  }

  /**
   * One time it is heard.
   *
   * @param transposedSemitones of its first note against the first occurrence
   * @param scaleSteps by which it moved; only where it moved along the scale
   * @param similarity to the first, 1 = the same rhythm and intervals
   */
  public record Occurrence(
      Span span,
      int firstBar,
      int transposedSemitones,
      Optional<Integer> scaleSteps,
      Likeness likeness,
      double similarity,
      double probability) {
    public Occurrence {
      Probability.check(probability);
    }

    Object essence() {
      return List.of(span, firstBar, transposedSemitones, scaleSteps, likeness, similarity);
    }
  }

  /** How long the figure lasts, to the end of its last note. */
  public double lengthBeats() {
    CellNote last = cell.get(cell.size() - 1);
    return last.onsetBeats() + last.lengthBeats();
  }

  Object essence() {
    return List.of(part, cell, occurrences.stream().map(Occurrence::essence).toList(), riff);
  }
}
