package undersong.reading;

import java.util.List;
import java.util.Optional;

/**
 * The accompaniment's lines, by name; empty where only bass, lead and voices sound.
 *
 * @param takeovers where one part goes on with what another played, in order of time
 */
public record Lines(List<Line> lines, List<Takeover> takeovers) implements FacetValue {
  public static final Lines NONE = new Lines(List.of(), List.of());

  public Lines {
    lines = List.copyOf(lines);
    takeovers = List.copyOf(takeovers);
    if (lines.stream().map(Line::name).distinct().count() < lines.size()) {
      throw new IllegalArgumentException("Two lines have the same name.");
    }
  }

  /**
   * One part goes on with another's figure.
   *
   * @param from name of the part that had it: a line, a voice, the bass or the melody
   * @param to name of the line that has it now
   * @param fromSeconds when the first had it
   * @param atSeconds when the second takes it
   */
  public record Takeover(
      String from, String to, double fromSeconds, double atSeconds, double probability) {
    public Takeover {
      Probability.check(probability);
    }
  }

  public Optional<Line> named(String name) {
    return lines.stream().filter(line -> line.name().equals(name)).findFirst();
  }

  @Override
  public Object essence() {
    return List.of(
        lines.stream().map(Line::essence).toList(),
        takeovers.stream()
            .map(t -> List.of(t.from(), t.to(), t.fromSeconds(), t.atSeconds()))
            .toList());
  }
}
