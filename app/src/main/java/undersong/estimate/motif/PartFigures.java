package undersong.estimate.motif;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import undersong.reading.Form;
import undersong.reading.Motif;
import undersong.reading.Motif.CellNote;
import undersong.reading.Motif.Likeness;
import undersong.reading.Motif.Occurrence;
import undersong.reading.NoteEvent;
import undersong.reading.Section;
import undersong.time.Span;

/**
 * The figures of one part. Copies that come merely because a whole section returns make no figure;
 * they are counted once there is one.
 */
final class PartFigures {
  private static final double[] LENGTHS_BARS = {2, 1, 0.5};

  /** So many rounds must follow another at once. */
  private static final int FEWEST_IN_A_ROW = 2;

  private final Cells cells;
  private final Setting setting;
  private final Form form;
  private final MotifSettings settings;
  private final Comparison comparison;

  PartFigures(Cells cells, Setting setting, Form form, MotifSettings settings) {
    this.cells = cells;
    this.setting = setting;
    this.form = form;
    this.settings = settings;
    this.comparison = new Comparison(setting, settings);
  }

  /**
   * @param moves whether a copy follows another at once, at another pitch
   */
  private record Figure(Motif motif, double weight, Set<Double> beats, boolean moves) {}

  private record Copy(Cell cell, Comparison.Found found, boolean fresh) {}

  List<Motif> of(String part, List<NoteEvent> notes) {
    List<Figure> figures = new ArrayList<>();
    for (double length : LENGTHS_BARS) {
      List<Cell> all = cells.of(notes, length);
      BitSet explained = new BitSet();
      for (Cell cell : all) {
        if (cell.size() < settings.fewestNotes() || explained.get(cell.index()) || returns(cell)) {
          continue;
        }
        double distinction = Distinction.of(cell, setting, cells.unitsPerBeat());
        if (distinction >= settings.leastDistinction() && !isTwice(cell)) {
          figure(part, cell, all, length, distinction, explained).ifPresent(figures::add);
        }
      }
    }
    figures.sort(Comparator.comparingDouble(Figure::weight).reversed());
    List<Motif> told = new ArrayList<>();
    Set<Double> usedByStanding = new HashSet<>();
    Set<Double> usedByMoving = new HashSet<>();
    for (Figure figure : figures) {
      // A long figure that returns may hold a short one that moves: both are told.
      Set<Double> used = figure.moves() ? usedByMoving : usedByStanding;
      long taken = figure.beats().stream().filter(used::contains).count();
      if (told.size() < settings.mostPerPart() && taken < 0.5 * figure.beats().size()) {
        told.add(figure.motif());
        used.addAll(figure.beats());
      }
    }
    return told;
  }

  private Optional<Figure> figure(
      String part,
      Cell first,
      List<Cell> all,
      double length,
      double distinction,
      BitSet explained) {
    List<Copy> copies = new ArrayList<>();
    double free = first.endBeat();
    for (Cell cell : all) {
      if (cell.startBeat() >= free - 1e-6) {
        Optional<Comparison.Found> found = comparison.of(first, cell);
        if (found.isPresent()) {
          copies.add(new Copy(cell, found.get(), fresh(first, cell)));
          free = cell.endBeat();
        }
      }
    }
    long fresh = copies.stream().filter(Copy::fresh).count();
    if (fresh < (length < 1 ? 2 : 1)) {
      return Optional.empty();
    }
    copies.forEach(copy -> explained.set(copy.cell().index()));
    Set<Double> beats = new HashSet<>();
    cover(first, beats);
    copies.forEach(copy -> cover(copy.cell(), beats));
    double weight = distinction * first.size() * fresh;
    return Optional.of(
        new Figure(
            motif(part, first, copies, length, distinction), weight, beats, moves(first, copies)));
  }

  /** Whether a cell lies in a section that was there before: its figures are told of the first. */
  private boolean returns(Cell cell) {
    return form.sectionAt(cell.startSeconds()).filter(s -> s.occurrence() > 1).isPresent();
  }

  /** Whether a cell of two bars is the same bar twice: then the bar is the figure. */
  private boolean isTwice(Cell cell) {
    int half = (int) Math.round(cell.lengthBeats() * cells.unitsPerBeat()) / 2;
    int together = 0;
    int i = 0;
    int j = 0;
    while (j < cell.size() && cell.offset(j) < half) {
      j++;
    }
    int firstHalf = j;
    while (i < firstHalf && j < cell.size()) {
      int apart = cell.offset(i) + half - cell.offset(j);
      together += apart == 0 && cell.pitch(i) == cell.pitch(j) ? 1 : 0;
      i += apart <= 0 ? 1 : 0;
      j += apart >= 0 ? 1 : 0;
    }
    return 2 * together >= settings.riffLikeness() * cell.size();
  }

  private static boolean moves(Cell first, List<Copy> copies) {
    double end = first.endBeat();
    int pitch = first.pitch(0);
    boolean moves = false;
    for (Copy copy : copies) {
      moves |= Math.abs(copy.cell().startBeat() - end) < 0.1 && copy.cell().pitch(0) != pitch;
      end = copy.cell().endBeat();
      pitch = copy.cell().pitch(0);
    }
    return moves;
  }

  private static void cover(Cell cell, Set<Double> beats) {
    for (double beat = cell.startBeat(); beat < cell.endBeat() - 0.25; beat += 0.5) {
      beats.add(beat);
    }
  }

  /** Whether a copy is more than the section's own return. */
  private boolean fresh(Cell first, Cell copy) {
    Optional<Section> here = form.sectionAt(first.startSeconds());
    Optional<Section> there = form.sectionAt(copy.startSeconds());
    if (here.isEmpty() || there.isEmpty()) {
      return true;
    }
    return here.get().equals(there.get()) || !here.get().letter().equals(there.get().letter());
  }

  private Motif motif(
      String part, Cell first, List<Copy> copies, double length, double distinction) {
    List<CellNote> notes = new ArrayList<>();
    for (int i = 0; i < first.size(); i++) {
      double onset = (double) (first.offset(i) - first.offset(0)) / cells.unitsPerBeat();
      double next =
          i + 1 < first.size()
              ? (double) (first.offset(i + 1) - first.offset(i)) / cells.unitsPerBeat()
              : first.lengthBeats() - (double) first.offset(i) / cells.unitsPerBeat();
      double beatSeconds =
          (first.endSeconds() - first.startSeconds()) / Math.max(0.5, first.lengthBeats());
      double sounding = first.notes().get(i).span().lengthSeconds() / Math.max(0.05, beatSeconds);
      double sounded = Math.max(0.25, Math.min(next, Math.round(4 * sounding) / 4.0));
      notes.add(new CellNote(onset, sounded, first.pitch(i) - first.pitch(0)));
    }
    List<Occurrence> occurrences = new ArrayList<>();
    Comparison.Found same = new Comparison.Found(Likeness.EXACT, 0, Optional.empty(), 1);
    occurrences.add(occurrence(first, same));
    copies.forEach(copy -> occurrences.add(occurrence(copy.cell(), copy.found())));
    double best =
        copies.stream()
            .filter(Copy::fresh)
            .mapToDouble(copy -> copy.found().share() * copy.cell().probability())
            .max()
            .orElse(0);
    double probability = first.probability() * best * Math.min(1, 0.6 + 0.2 * distinction);
    return new Motif(
        part, notes, occurrences, length >= 1 && goesRound(first, copies), probability);
  }

  private static Occurrence occurrence(Cell cell, Comparison.Found found) {
    return new Occurrence(
        new Span(cell.startSeconds(), cell.endSeconds()),
        cell.bar(),
        found.semitones(),
        found.steps(),
        found.likeness(),
        found.share(),
        cell.probability() * found.share());
  }

  /** So often in all, and some of it in a row: the same, or carried to another chord. */
  private boolean goesRound(Cell first, List<Copy> copies) {
    int rounds = 1;
    int inARow = 0;
    double end = first.endBeat();
    for (Copy copy : copies) {
      boolean like =
          copy.found().share() >= settings.riffLikeness()
              && (copy.found().likeness() == Likeness.EXACT
                  || copy.found().likeness() == Likeness.FOLLOWS_ROOT);
      rounds += like ? 1 : 0;
      inARow += like && Math.abs(copy.cell().startBeat() - end) < 0.1 ? 1 : 0;
      end = copy.cell().endBeat();
    }
    return inARow >= FEWEST_IN_A_ROW && rounds >= settings.riffRounds();
  }
}
