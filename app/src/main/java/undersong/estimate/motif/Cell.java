package undersong.estimate.motif;

import java.util.List;
import undersong.reading.NoteEvent;

/**
 * What a part plays in one stretch of the grid.
 *
 * @param index of the cell among those of its length
 * @param startBeat of the stretch, a bar line or half bar
 * @param lengthBeats of the stretch
 * @param offsets of the onsets in the stretch, in units of the grid, rising
 * @param rhythm the offsets as bits; no cell is longer than 64 units of the grid
 * @param notes matching the offsets
 */
record Cell(
    int index,
    double startBeat,
    double lengthBeats,
    int bar,
    List<Integer> offsets,
    long rhythm,
    List<NoteEvent> notes) {
  int size() {
    return offsets.size();
  }

  int offset(int note) {
    return offsets.get(note);
  }

  int pitch(int note) {
    return (int) Math.round(notes.get(note).midiPitch());
  }

  double startSeconds() {
    return notes.get(0).span().startSeconds();
  }

  double endSeconds() {
    return notes.stream().mapToDouble(n -> n.span().endSeconds()).max().orElseThrow();
  }

  double probability() {
    return notes.stream().mapToDouble(NoteEvent::probability).average().orElse(0);
  }

  double endBeat() {
    return startBeat + lengthBeats;
  }
}
