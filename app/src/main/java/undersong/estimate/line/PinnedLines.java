package undersong.estimate.line;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Facet;
import undersong.reading.Line;
import undersong.reading.NoteEvent;
import undersong.time.Span;

/**
 * The listener's word on lines, laid over what was heard, the newest last. A note that is said
 * takes the place of the notes of its line that begin within it; notes that ring on from before
 * stay.
 */
final class PinnedLines {
  private final List<Correction> placed = new ArrayList<>();
  private final List<Correction> unplaced = new ArrayList<>();

  PinnedLines(Corrections corrections, double durationSeconds) {
    for (CorrectionEntry entry : corrections.of(Facet.LINES).entries()) {
      Correction said = entry.correction();
      (spanOf(said).startSeconds() < durationSeconds ? placed : unplaced).add(said);
    }
  }

  private static Span spanOf(Correction said) {
    return said instanceof Correction.LineNoteOver note
        ? note.span()
        : ((Correction.NoLineOver) said).span();
  }

  List<Correction> unplaced() {
    return unplaced;
  }

  List<Line> laidOver(List<Line> heard) {
    if (placed.isEmpty()) {
      return heard;
    }
    Map<String, Line> before = new LinkedHashMap<>();
    Map<String, List<NoteEvent>> notes = new LinkedHashMap<>();
    for (Line line : heard) {
      before.put(line.name(), line);
      notes.put(line.name(), new ArrayList<>(line.notes()));
    }
    for (Correction said : placed) {
      String name =
          said instanceof Correction.LineNoteOver note
              ? note.line()
              : ((Correction.NoLineOver) said).line();
      List<NoteEvent> own = notes.computeIfAbsent(name, n -> new ArrayList<>());
      Span span = spanOf(said);
      own.removeIf(
          note ->
              note.span().startSeconds() >= span.startSeconds() - 1e-6
                  && note.span().startSeconds() < span.endSeconds());
      if (said instanceof Correction.LineNoteOver over) {
        own.add(new NoteEvent(span, over.midiPitch(), 1));
        own.sort(Comparator.comparingDouble(note -> note.span().startSeconds()));
      }
    }
    List<Line> lines = new ArrayList<>();
    for (String name : new TreeSet<>(notes.keySet())) {
      if (!notes.get(name).isEmpty()) {
        Line old = before.get(name);
        lines.add(
            new Line(
                name,
                notes.get(name),
                old == null ? Optional.empty() : old.kind(),
                old == null ? Optional.empty() : old.placement(),
                old == null ? 1 : old.probability()));
      }
    }
    return lines;
  }
}
