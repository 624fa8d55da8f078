package undersong.technique.harmony;

import java.util.ArrayList;
import java.util.List;
import undersong.reading.NoteEvent;
import undersong.technique.ChordPath;
import undersong.technique.ChordStep;
import undersong.technique.Part;
import undersong.technique.Pulse;
import undersong.time.Span;

/**
 * One part that walks by semitones in one direction while the chords keep their root: heard in the
 * part itself where the chords' names are too coarse for it.
 *
 * @param notes one for each pitch, notes struck again joined
 */
record ChromaticPart(Part part, List<NoteEvent> notes, ChordStep step) {
  private static final int LEAST_NOTES = 4;
  private static final double LEAST_BEATS = 1;
  private static final double LONGEST_GAP_BEATS = 1;

  Span span() {
    return new Span(
        notes.get(0).span().startSeconds(), notes.get(notes.size() - 1).span().endSeconds());
  }

  boolean falls() {
    return notes.get(1).midiPitch() < notes.get(0).midiPitch();
  }

  static List<ChromaticPart> in(Part part, ChordPath path, Pulse pulse) {
    List<NoteEvent> pitches = joined(part.notes(), pulse);
    List<ChromaticPart> walks = new ArrayList<>();
    int first = 0;
    while (first + 1 < pitches.size()) {
      int last = first;
      long direction = move(pitches, first);
      while (last + 1 < pitches.size()
          && Math.abs(direction) == 1
          && move(pitches, last) == direction
          && goesOn(pitches.get(last), pitches.get(last + 1), pulse)) {
        last++;
      }
      List<NoteEvent> walk = pitches.subList(first, last + 1);
      ChordStep root = walk.size() >= LEAST_NOTES ? oneRoot(walk, path) : null;
      if (root != null) {
        walks.add(new ChromaticPart(part, List.copyOf(walk), root));
      }
      first = Math.max(last, first + 1);
    }
    return walks;
  }

  private static long move(List<NoteEvent> pitches, int i) {
    return Math.round(pitches.get(i + 1).midiPitch()) - Math.round(pitches.get(i).midiPitch());
  }

  private static boolean goesOn(NoteEvent one, NoteEvent other, Pulse pulse) {
    return pulse.beats(one.span()) >= LEAST_BEATS
        && pulse.beats(other.span()) >= LEAST_BEATS
        && pulse.beats(one.span().endSeconds(), other.span().startSeconds()) <= LONGEST_GAP_BEATS;
  }

  /** Notes of one pitch that follow each other closely count as one. */
  private static List<NoteEvent> joined(List<NoteEvent> notes, Pulse pulse) {
    List<NoteEvent> joined = new ArrayList<>();
    for (NoteEvent note : notes) {
      int last = joined.size() - 1;
      boolean again =
          last >= 0
              && Math.round(joined.get(last).midiPitch()) == Math.round(note.midiPitch())
              && pulse.beats(joined.get(last).span().endSeconds(), note.span().startSeconds())
                  <= LONGEST_GAP_BEATS;
      if (again) {
        NoteEvent before = joined.get(last);
        double end = Math.max(before.span().endSeconds(), note.span().endSeconds());
        joined.set(
            last,
            new NoteEvent(
                new Span(before.span().startSeconds(), end),
                before.midiPitch(),
                Math.max(before.probability(), note.probability())));
      } else {
        joined.add(note);
      }
    }
    return joined;
  }

  /** The chord whose root holds under all of it; null where the root moves. */
  private static ChordStep oneRoot(List<NoteEvent> walk, ChordPath path) {
    Span span =
        new Span(walk.get(0).span().startSeconds(), walk.get(walk.size() - 1).span().endSeconds());
    ChordStep found = null;
    for (ChordStep step : path.steps()) {
      if (step.span().overlapSeconds(span) < 0.3) {
        continue;
      }
      if (found != null && found.chord().root().pitchClass() != step.chord().root().pitchClass()) {
        return null;
      }
      found = step;
    }
    return found;
  }
}
