package undersong.estimate.line;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import undersong.reading.Bar;
import undersong.reading.Facet;
import undersong.reading.Line;
import undersong.reading.Lines.Takeover;
import undersong.reading.NoteEvent;
import undersong.reading.PartName;
import undersong.reading.Reading;
import undersong.time.BeatGrid;

/**
 * Where a line comes in with a figure that another part had shortly before: bars as sets of onset
 * (in quarters of a beat) and pitch class, compared where a line sounds after a rest.
 */
final class Takeovers {
  /** Bass, tune and voices are heard about so surely. */
  private static final double SURE_OF_OTHERS = 0.9;

  private static final int REST_BARS = 2;
  private static final int BACK_BARS = 4;
  private static final int FEWEST_NOTES = 4;

  /** Notes in common over all notes of both bars. */
  private static final double ALIKE = 0.6;

  private final List<Bar> bars;
  private final BeatGrid grid;
  private final Map<String, List<Set<Integer>>> figures = new LinkedHashMap<>();
  private final List<Line> lines;

  Takeovers(Reading reading, List<Line> lines) {
    this.bars = reading.get(Facet.METER).bars();
    this.grid = reading.get(Facet.BEATS).grid();
    this.lines = lines;
    if (!bars.isEmpty()) {
      figures.put(PartName.BASS, figures(reading.get(Facet.BASS).notes()));
      figures.put(PartName.MELODY, figures(reading.get(Facet.MELODY).notes()));
      reading
          .get(Facet.VOICES)
          .voices()
          .forEach(voice -> figures.put(voice.name(), figures(voice.events())));
      lines.forEach(line -> figures.put(line.name(), figures(line.notes())));
    }
  }

  /** The figure of each bar. */
  private List<Set<Integer>> figures(List<NoteEvent> notes) {
    List<Set<Integer>> all = new ArrayList<>();
    bars.forEach(bar -> all.add(new HashSet<>()));
    int bar = 0;
    for (NoteEvent note : notes) {
      double beat = grid.positionAt(note.span().startSeconds()) + 0.12;
      while (bar + 1 < bars.size() && beat >= bars.get(bar + 1).firstBeat()) {
        bar++;
      }
      long quarter = Math.round(4 * (beat - 0.12 - bars.get(bar).firstBeat()));
      if (beat >= bars.get(bar).firstBeat() && quarter < 4L * bars.get(bar).beats()) {
        all.get(bar).add((int) (12 * quarter) + note.pitchClass());
      }
    }
    return all;
  }

  List<Takeover> all() {
    List<Takeover> takeovers = new ArrayList<>();
    for (int bar = REST_BARS; bar < bars.size(); bar++) {
      for (Line line : lines) {
        Set<Integer> figure = figures.get(line.name()).get(bar);
        if (figure.size() >= FEWEST_NOTES && rests(line.name(), bar)) {
          from(line, bar, figure, takeovers);
        }
      }
    }
    return takeovers;
  }

  private boolean rests(String name, int bar) {
    return figures.get(name).subList(bar - REST_BARS, bar).stream().allMatch(Set::isEmpty);
  }

  private void from(Line line, int bar, Set<Integer> figure, List<Takeover> takeovers) {
    for (Map.Entry<String, List<Set<Integer>>> part : figures.entrySet()) {
      if (part.getKey().equals(line.name()) || alike(part.getValue().get(bar), figure) >= ALIKE) {
        continue; // both have it: doubled, not taken over
      }
      for (int back = bar - 1; back >= Math.max(0, bar - BACK_BARS); back--) {
        double alike = alike(part.getValue().get(back), figure);
        if (alike >= ALIKE) {
          takeovers.add(
              new Takeover(
                  part.getKey(),
                  line.name(),
                  bars.get(back).span().startSeconds(),
                  bars.get(bar).span().startSeconds(),
                  alike * line.probability() * sure(part.getKey())));
          return;
        }
      }
    }
  }

  private double sure(String part) {
    return lines.stream()
        .filter(line -> line.name().equals(part))
        .mapToDouble(Line::probability)
        .findFirst()
        .orElse(SURE_OF_OTHERS);
  }

  private static double alike(Set<Integer> one, Set<Integer> other) {
    Set<Integer> common = new HashSet<>(one);
    common.retainAll(other);
    int all = one.size() + other.size() - common.size();
    return all == 0 ? 0 : (double) common.size() / all;
  }
}
