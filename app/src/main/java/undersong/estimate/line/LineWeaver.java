package undersong.estimate.line;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Weaves notes into lines: notes that begin together go to different lines, and each to the line
 * that lies nearest in pitch and place, lines never crossing (a least-cost alignment of notes and
 * lines from top to bottom); a note far from every line begins a new one.
 *
 * <p>After the pitch proximity of E. Cambouropoulos, "Voice and Stream: Perceptual and
 * Computational Modeling of Voice Separation", Music Perception 26(1), 2008 (from memory).
 * <b>Cost:</b> O(notes * lines).
 */
final class LineWeaver {
  /** A line is followed by where it lately was. */
  private static final double FORGET = 0.25;

  /** A line silent for as long begins anew as easily as it goes on. */
  private static final double SILENT_SECONDS = 12;

  private final LineSettings settings;
  private final List<Strand> strands = new ArrayList<>();

  private LineWeaver(LineSettings settings) {
    this.settings = settings;
  }

  private static final class Strand {
    final List<HeardNote> notes = new ArrayList<>();
    double pitch;
    double placement;

    void add(HeardNote note) {
      boolean first = notes.isEmpty();
      pitch = first ? note.pitch() : pitch + FORGET * (note.pitch() - pitch);
      double place = note.placement().orElse(placement);
      placement = first ? place : placement + FORGET * (place - placement);
      notes.add(note);
    }

    HeardNote last() {
      return notes.get(notes.size() - 1);
    }
  }

  /**
   * @param notes by start
   */
  static List<List<HeardNote>> weave(List<HeardNote> notes, LineSettings settings) {
    LineWeaver weaver = new LineWeaver(settings);
    int begin = 0;
    for (int i = 1; i <= notes.size(); i++) {
      if (i == notes.size()
          || notes.get(i).start() - notes.get(begin).start() > settings.togetherSeconds()) {
        weaver.place(notes.subList(begin, i));
        begin = i;
      }
    }
    return weaver.strands.stream().map(strand -> strand.notes).toList();
  }

  private void place(List<HeardNote> together) {
    List<HeardNote> chord = new ArrayList<>(together);
    chord.sort(Comparator.comparingDouble(HeardNote::pitch).reversed());
    strands.sort(Comparator.comparingDouble((Strand strand) -> strand.pitch).reversed());
    int n = chord.size();
    int m = strands.size();
    double[][] cost = new double[n + 1][m + 1];
    for (int i = 1; i <= n; i++) {
      cost[i][0] = i * settings.newLineCost();
      for (int j = 1; j <= m; j++) {
        double joined = cost[i - 1][j - 1] + cost(chord.get(i - 1), strands.get(j - 1));
        double begun = cost[i - 1][j] + settings.newLineCost();
        cost[i][j] = Math.min(joined, Math.min(begun, cost[i][j - 1]));
      }
    }
    List<Strand> begun = new ArrayList<>();
    int i = n;
    int j = m;
    while (i > 0) {
      if (j > 0 && cost[i][j] == cost[i][j - 1]) {
        j--;
      } else if (j > 0
          && cost[i][j] == cost[i - 1][j - 1] + cost(chord.get(i - 1), strands.get(j - 1))) {
        strands.get(j - 1).add(chord.get(i - 1));
        i--;
        j--;
      } else {
        Strand strand = new Strand();
        strand.add(chord.get(i - 1));
        begun.add(strand);
        i--;
      }
    }
    strands.addAll(begun);
  }

  private double cost(HeardNote note, Strand strand) {
    double away =
        Math.min(
            Math.abs(note.pitch() - strand.pitch), Math.abs(note.pitch() - strand.last().pitch()));
    double aside =
        note.placement().isPresent()
            ? settings.placeCost() * Math.abs(note.placement().getAsDouble() - strand.placement) / 2
            : 0;
    double silent = Math.max(0, note.start() - strand.last().event().span().endSeconds());
    return Math.min(away + aside, 2 * settings.newLineCost())
        + settings.newLineCost() * 0.5 * Math.min(1, silent / SILENT_SECONDS);
  }
}
