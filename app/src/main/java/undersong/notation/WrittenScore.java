package undersong.notation;

import java.util.List;
import undersong.theory.TransposingInstrument;

/**
 * A reading, or some bars of it, written down.
 *
 * @param bpm tapped beats a minute, the song's median
 * @param swing whether even eighths on paper are played long and short
 * @param instrument whose pitches these are, as it reads them
 */
public record WrittenScore(
    double bpm, boolean swing, TransposingInstrument instrument, List<WrittenPart> parts) {
  public WrittenScore {
    parts = List.copyOf(parts);
    if (parts.stream().map(part -> part.bars().size()).distinct().count() > 1) {
      throw new IllegalArgumentException("The parts of a score must have equally many bars.");
    }
  }

  /** Bars from one number to another, inclusive; the whole score's other facts stay. */
  public WrittenScore bars(int from, int to) {
    return new WrittenScore(
        bpm,
        swing,
        instrument,
        parts.stream()
            .map(
                part ->
                    new WrittenPart(
                        part.name(),
                        part.clef(),
                        part.bars().stream()
                            .filter(bar -> bar.number() >= from && bar.number() <= to)
                            .toList()))
            .toList());
  }
}
