package undersong.estimate.repeat;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import undersong.reading.Bar;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.NoteEvent;
import undersong.reading.PartName;
import undersong.reading.Repeat.NoteChange;
import undersong.reading.Repeat.NoteFate;
import undersong.theory.ChordSymbol;
import undersong.time.BeatGrid;
import undersong.time.Span;

/**
 * Which notes one copy has and the other lacks. A note counts as lacking only where no part begins
 * it and the ear heard next to nothing of it; how sure that is grows where the same note at the
 * same beat is lacking in several bars.
 */
final class NoteChanges {
  private static final double PITCH_SEMITONES = 0.6;

  /** No part moves a note further than this; beyond, one note is gone and another is new. */
  private static final double FURTHEST_MOVE_SEMITONES = 7;

  /** A note begins in a bar though it comes this much before its line. */
  private static final double EARLY_BEATS = 0.12;

  private static final double FARTHEST_LOOK_BEATS = 0.75;

  /** A note that only goes on sounding in the other copy is less surely new when struck here. */
  private static final double HELD = 0.7;

  /** Likewise one whose pitch class begins there in another octave. */
  private static final double ELSEWHERE = 0.8;

  private final Alignment alignment;
  private final Parts parts;
  private final Chords chords;
  private final BeatGrid grid;
  private final NotePresence hearing;
  private final RepeatSettings settings;

  NoteChanges(
      Alignment alignment,
      Parts parts,
      Chords chords,
      BeatGrid grid,
      NotePresence hearing,
      RepeatSettings settings) {
    this.alignment = alignment;
    this.parts = parts;
    this.chords = chords;
    this.grid = grid;
    this.hearing = hearing;
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
      for (PlacedNote note : parts.beginning(from, from + bar.beats())) {
        double there = alignment.earlierBeat(note.startBeat(), bar);
        double lacking = lacking(note, there, -alignment.semitones());
        added.add(new Only(note, bar, note.startBeat(), note.event().probability() * lacking));
      }
      double back = alignment.earlierBeat(from, bar);
      for (PlacedNote note : parts.beginning(back, back + bar.beats())) {
        double here = note.startBeat() - back + from;
        double lacking = lacking(note, here, alignment.semitones());
        removed.add(new Only(note, bar, here, note.event().probability() * lacking));
      }
    }
    List<Only> sureAdded = sure(added);
    List<Only> sureRemoved = sure(removed);
    List<NoteChange> changes = new ArrayList<>();
    for (Only only : sureAdded) {
      Optional<Only> before = sureRemoved.stream().filter(gone -> movesTo(gone, only)).findFirst();
      before.ifPresent(sureRemoved::remove);
      changes.add(change(only, before));
    }
    sureRemoved.forEach(gone -> changes.add(gone(gone)));
    changes.sort(Comparator.comparingDouble(change -> change.span().startSeconds()));
    return changes;
  }

  /** How sure it is that the other copy has no such note at this beat. */
  private double lacking(PlacedNote note, double beat, int semitones) {
    if (beat < 0) {
      return 0;
    }
    double pitch = note.event().midiPitch() + semitones;
    double length =
        Math.max(
            settings.onsetBeats(),
            Math.min(FARTHEST_LOOK_BEATS, note.endBeat() - note.startBeat()));
    boolean held = false;
    boolean elsewhere = false;
    for (int near = lowestAlike(pitch); near < 128; near += 12) {
      for (int offset = -1; offset <= 1; offset++) {
        for (PlacedNote other :
            parts.sounding(near + offset, beat - settings.onsetBeats(), beat + length)) {
          double apart = Math.abs(other.event().midiPitch() - pitch);
          if (!sameClass(apart)) {
            continue;
          }
          boolean samePart = other.part().equals(note.part());
          boolean begins = Math.abs(other.startBeat() - beat) <= settings.onsetBeats();
          boolean alike = apart <= PITCH_SEMITONES;
          if ((alike && begins) || (samePart && !PartName.isLine(note.part()))) {
            return 0;
          }
          held |= alike;
          elsewhere |= begins;
        }
      }
    }
    double seconds = Math.max(0, grid.secondsAtPosition(beat));
    Span there = new Span(seconds, seconds + note.event().span().lengthSeconds());
    double heard = held ? hearing.begins(there, pitch) : hearing.strength(there, pitch);
    return (1 - Math.min(1, 1.5 * heard)) * (held ? HELD : elsewhere ? ELSEWHERE : 1);
  }

  private static int lowestAlike(double pitch) {
    return Math.floorMod((int) Math.round(pitch), 12);
  }

  private static boolean sameClass(double semitones) {
    return Math.abs(semitones - 12 * Math.rint(semitones / 12)) <= PITCH_SEMITONES;
  }

  /** What makes two differences the same one in different bars. */
  private record Place(String part, int pitchClass, double beat) {
    static Place of(Only only) {
      return new Place(only.note().part(), only.note().event().pitchClass(), only.beatInBar());
    }
  }

  /** Those sure enough; the same note at the same beat of other bars bears witness. */
  private List<Only> sure(List<Only> all) {
    Map<Place, Set<Integer>> bars = new HashMap<>();
    for (Only only : all) {
      if (only.probability() >= settings.leastProbability() / 2) {
        bars.computeIfAbsent(Place.of(only), place -> new HashSet<>()).add(only.bar().number());
      }
    }
    List<Only> sure = new ArrayList<>();
    for (Only only : all) {
      int witnesses = bars.getOrDefault(Place.of(only), Set.of()).size() - 1;
      double doubt =
          Math.pow(1 - only.probability(), 1 + 0.4 * Math.max(0, Math.min(4, witnesses)));
      if (1 - doubt >= settings.leastProbability()) {
        sure.add(new Only(only.note(), only.bar(), only.laterBeat(), 1 - doubt));
      }
    }
    return sure;
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
