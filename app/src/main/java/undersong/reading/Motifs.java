package undersong.reading;

import java.util.List;
import undersong.time.Span;

/**
 * Recurring figures, most telling first, and how each part moves through each section.
 *
 * @param ranges one entry per part and section in which it sounds
 */
public record Motifs(List<Motif> motifs, List<PartRange> ranges) implements FacetValue {
  public static final Motifs NONE = new Motifs(List.of(), List.of());

  public Motifs {
    motifs = List.copyOf(motifs);
    ranges = List.copyOf(ranges);
  }

  /** The shape of a stretch of melody, end to end. */
  public enum Contour {
    RISING,
    FALLING,
    /** Up, then down again. */
    ARCH,
    /** Down, then up again. */
    BOWL,
    LEVEL,
    /** Several ups and downs of like size. */
    WAVE
  }

  /**
   * How a part moves through one section.
   *
   * @param span of the section
   * @param part {@code bass}, {@code melody}, {@code voice-2}, {@code line-1} ...
   * @param contour the commonest shape of its phrases
   */
  public record PartRange(
      Span span,
      String part,
      double lowestMidi,
      double medianMidi,
      double highestMidi,
      Contour contour) {}

  @Override
  public Object essence() {
    return List.of(motifs.stream().map(Motif::essence).toList(), ranges);
  }
}
