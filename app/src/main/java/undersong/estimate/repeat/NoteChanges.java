package undersong.estimate.repeat;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import undersong.reading.Bar;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.NoteEvent;
import undersong.reading.Repeat.NoteChange;
import undersong.reading.Repeat.NoteFate;
import undersong.theory.ChordSymbol;
import undersong.time.BeatGrid;
import undersong.time.Span;

/**
 * Which notes one copy has and the other lacks: a note gone and a note come of one part at one beat
 * are one note that moved.
 */
final class NoteChanges {
  /** No part moves a note further than this; beyond, one note is gone and another is new. */
  private static final double FURTHEST_MOVE_SEMITONES = 7;

  /** A note begins in a bar though it comes this much before its line. */
  private static final double EARLY_BEATS = 0.12;

  private final Alignment alignment;
  private final Parts parts;
  private final Chords chords;
  private final BeatGrid grid;
  private final NewNotes news;
  private final RepeatSettings settings;

  NoteChanges(
      Alignment alignment,
      Parts parts,
      Chords chords,
      BeatGrid grid,
      NewNotes news,
      RepeatSettings settings) {
    this.alignment = alignment;
    this.parts = parts;
    this.chords = chords;
    this.grid = grid;
    this.news = news;
    this.settings = settings;
  }

  /** A note that one copy has, with its place in this copy. */
  private record Only(PlacedNote note, Bar bar, double laterBeat, double probability) {
    double beatInBar() {
      return Math.round((laterBeat - bar.firstBeat()) * 4) / 4.0 + 1;
    }
  }

  List<NoteChange> all() {
    List<Only> added = new ArrayList<>();
    List<Only> removed = new ArrayList<>();
    for (Bar bar : alignment.laterBars()) {
      double from = bar.firstBeat() - EARLY_BEATS;
      double back = alignment.earlierBeat(from, bar);
      for (PlacedNote note : beginning(parts, bar)) {
        double there = note.startBeat() - from + back;
        double probability = news.probability(note, there, -alignment.semitones());
        added.add(new Only(note, bar, note.startBeat(), probability));
      }
      for (PlacedNote note : parts.beginning(back, back + bar.beats())) {
        double here = note.startBeat() - back + from;
        double probability = news.probability(note, here, alignment.semitones());
        removed.add(new Only(note, bar, here, probability));
      }
    }
    added.removeIf(only -> only.probability() < settings.leastNewNote());
    removed.removeIf(only -> only.probability() < settings.leastNewNote());
    List<NoteChange> changes = new ArrayList<>();
    for (Only only : added) {
      Optional<Only> before = removed.stream().filter(gone -> movesTo(gone, only)).findFirst();
      before.ifPresent(removed::remove);
      changes.add(change(only, before));
    }
    removed.forEach(gone -> changes.add(gone(gone)));
    changes.sort(Comparator.comparingDouble(change -> change.span().startSeconds()));
    return changes;
  }

  /** Notes that begin in a bar, or just before its line. */
  static List<PlacedNote> beginning(Parts parts, Bar bar) {
    double from = bar.firstBeat() - EARLY_BEATS;
    return parts.beginning(from, from + bar.beats());
  }

  private boolean movesTo(Only gone, Only come) {
    double apart =
        gone.note().event().midiPitch() + alignment.semitones() - come.note().event().midiPitch();
    return gone.note().part().equals(come.note().part())
        && Math.abs(gone.laterBeat() - come.laterBeat()) <= settings.onsetBeats()
        && Math.abs(apart) <= FURTHEST_MOVE_SEMITONES;
  }

  private NoteChange change(Only only, Optional<Only> before) {
    return new NoteChange(
        before.isPresent() ? NoteFate.MOVED : NoteFate.ADDED,
        only.note().part(),
        only.note().event(),
        only.bar().number(),
        only.beatInBar(),
        before.map(gone -> gone.note().event().midiPitch() + alignment.semitones()),
        aboveRoot(only.note().event()),
        before
            .map(gone -> Math.min(gone.probability(), only.probability()))
            .orElse(only.probability()));
  }

  private NoteChange gone(Only only) {
    double start = Math.max(0, grid.secondsAtPosition(only.laterBeat()));
    double length = only.note().endBeat() - only.note().startBeat();
    double end = Math.max(start + 0.02, grid.secondsAtPosition(only.laterBeat() + length));
    NoteEvent event =
        new NoteEvent(
            new Span(start, end),
            Math.max(0, Math.min(127, only.note().event().midiPitch() + alignment.semitones())),
            only.note().event().probability());
    return new NoteChange(
        NoteFate.REMOVED,
        only.note().part(),
        event,
        only.bar().number(),
        only.beatInBar(),
        Optional.empty(),
        aboveRoot(event),
        only.probability());
  }

  private Optional<Integer> aboveRoot(NoteEvent event) {
    return chords
        .chordAt(event.span().middleSeconds())
        .map(ChordSpan::symbol)
        .filter(ChordSymbol.Chord.class::isInstance)
        .map(symbol -> ((ChordSymbol.Chord) symbol).root().pitchClass())
        .map(root -> Math.floorMod(event.pitchClass() - root, 12));
  }
}
