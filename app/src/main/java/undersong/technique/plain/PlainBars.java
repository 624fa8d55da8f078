package undersong.technique.plain;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.function.UnaryOperator;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.Keys;
import undersong.reading.Melody;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Section;
import undersong.theory.ChordSymbol;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.Key;
import undersong.theory.Mode;
import undersong.theory.NoteName;
import undersong.time.BeatGrid;
import undersong.time.Span;

/** Ways to make the bars of one span plainer; each gives a new reading. */
final class PlainBars {
  /** A note that is moved into a chord is moved no further than this. */
  private static final int FARTHEST_SEMITONES = 2;

  private final Reading reading;
  private final Span span;
  private final Keys keys;
  private final List<ChordSpan> chords;

  PlainBars(Reading reading, Span span) {
    this.reading = reading;
    this.span = span;
    this.keys = reading.find(Facet.KEYS).orElse(new Keys(List.of()));
    this.chords = reading.get(Facet.CHORDS).spans();
  }

  /** Every early or late chord where the beat has it, the bass with it. */
  Reading chordsInPlace() {
    return new InPlace(reading, span).reading();
  }

  /** One bass note a beat, on it. */
  Reading bassOnTheBeat() {
    BeatGrid grid = reading.find(Facet.BEATS).map(Beats::grid).orElse(BeatGrid.NO_PULSE);
    if (grid.isEmpty()) {
      return reading;
    }
    List<NoteEvent> before = reading.get(Facet.BASS).notes();
    List<NoteEvent> notes = new ArrayList<>(before.stream().filter(n -> !begins(n)).toList());
    int last = (int) Math.ceil(grid.positionAt(span.endSeconds()) - 0.01);
    for (int beat = grid.nearestBeat(span.startSeconds()); beat < last; beat++) {
      Span place = new Span(grid.secondsAtPosition(beat), grid.secondsAtPosition(beat + 1));
      before.stream()
          .filter(note -> note.span().overlaps(place))
          .max(java.util.Comparator.comparing(note -> note.span().overlapSeconds(place)))
          .ifPresent(note -> notes.add(new NoteEvent(place, note.midiPitch(), 1)));
    }
    return bass(withoutOverlaps(notes));
  }

  /** Chords foreign to the key as the triads the key has on the same degree. */
  Reading inTheKey() {
    return chords((chord, symbol) -> diatonic(symbol, keyAt(chord)));
  }

  /** As {@link #inTheKey}, modes being taken for major or natural minor. */
  Reading inPlainMajorOrMinor() {
    return chords(
        (chord, symbol) -> {
          Key key = keyAt(chord);
          Mode plain = key.mode().hasMinorThird() ? Mode.NATURAL_MINOR : Mode.MAJOR;
          return diatonic(symbol, key.parallel(plain));
        });
  }

  /** Chords without a third as the triads of the key. */
  Reading withThirds() {
    return chords(
        (chord, symbol) ->
            symbol.quality().hasNoThird() ? triad(symbol.root(), keyAt(chord)) : symbol);
  }

  /** Every chord in root position, the bass on its root. */
  Reading rootsInTheBass() {
    Reading plain = chords((chord, symbol) -> symbol.withBass(symbol.root()));
    List<NoteEvent> notes =
        plain.get(Facet.BASS).notes().stream()
            .map(note -> begins(note) ? toRoot(note) : note)
            .toList();
    return plain.with(Facet.BASS, Derived.of(new Bass(notes)));
  }

  /** As long as a root holds, its first chord holds. */
  Reading eachRootWithOneChord() {
    Chord[] held = new Chord[1];
    return chords(
        (chord, symbol) -> {
          boolean same =
              held[0] != null && held[0].root().pitchClass() == symbol.root().pitchClass();
          held[0] = same ? held[0] : symbol;
          return held[0];
        });
  }

  /** The last chord as the tonic. */
  Reading endingAtHome() {
    List<ChordSpan> here =
        chords.stream().filter(c -> inside(c.span()) && c.symbol() instanceof Chord).toList();
    if (here.isEmpty()) {
      return reading;
    }
    ChordSpan last = here.get(here.size() - 1);
    return chords((chord, symbol) -> chord.equals(last) ? keyAt(chord).triad(0) : symbol);
  }

  /** A section that comes back higher, at the height it had. */
  Reading unlifted() {
    List<Section> sections = reading.find(Facet.FORM).map(Form::sections).orElse(List.of());
    Optional<Section> here =
        sections.stream().filter(s -> s.span().contains(span.middleSeconds())).findFirst();
    Optional<Section> before =
        here.flatMap(
            copy ->
                sections.stream()
                    .filter(s -> s.letter().equals(copy.letter()))
                    .filter(s -> s.occurrence() == copy.occurrence() - 1)
                    .findFirst());
    if (before.isEmpty()) {
      return reading;
    }
    int down = before.get().transposedSemitones() - here.orElseThrow().transposedSemitones();
    int fifths = Math.floorMod(7 * down + 6, 12) - 6;
    UnaryOperator<NoteEvent> lower =
        note -> begins(note) ? moved(note, note.midiPitch() + down) : note;
    List<ChordSpan> lowered =
        chords.stream()
            .map(c -> inside(c.span()) && c.symbol() instanceof Chord s ? with(c, s.up(fifths)) : c)
            .toList();
    return notes(reading.with(Facet.CHORDS, Derived.of(new Chords(lowered))), lower);
  }

  /** Changes the chords of the span; notes that were in a changed chord go along. */
  private Reading chords(BiFunction<ChordSpan, Chord, Chord> change) {
    List<ChordSpan> plain = new ArrayList<>();
    List<ChordSpan> changed = new ArrayList<>();
    for (ChordSpan chord : chords) {
      ChordSpan now = chord;
      if (inside(chord.span()) && chord.symbol() instanceof Chord symbol) {
        Chord other = change.apply(chord, symbol);
        if (!other.equals(symbol)) {
          now = with(chord, other);
          changed.add(now);
        }
      }
      plain.add(now);
    }
    Reading with = reading.with(Facet.CHORDS, Derived.of(new Chords(plain)));
    return changed.isEmpty() ? reading : notes(with, note -> goingAlong(note, changed));
  }

  private NoteEvent goingAlong(NoteEvent note, List<ChordSpan> changed) {
    double middle = note.span().middleSeconds();
    for (ChordSpan now : changed) {
      if (now.span().contains(middle)) {
        int was = ((Chord) symbolAt(middle)).pitchClassBits();
        int bits = ((Chord) now.symbol()).pitchClassBits();
        return has(was, note.pitchClass()) && !has(bits, note.pitchClass())
            ? nearest(note, bits)
            : note;
      }
    }
    return note;
  }

  private static NoteEvent nearest(NoteEvent note, int bits) {
    for (int distance = 1; distance <= FARTHEST_SEMITONES; distance++) {
      for (int step : new int[] {-distance, distance}) {
        if (has(bits, Math.floorMod(note.pitchClass() + step, 12))) {
          return moved(note, note.midiPitch() + step);
        }
      }
    }
    return note;
  }

  private NoteEvent toRoot(NoteEvent note) {
    if (!(symbolAt(note.span().middleSeconds()) instanceof Chord chord)) {
      return note;
    }
    int up = Math.floorMod(chord.root().pitchClass() - note.pitchClass(), 12);
    return moved(note, note.midiPitch() + (up > 6 ? up - 12 : up));
  }

  private ChordSymbol symbolAt(double seconds) {
    return chords.stream()
        .filter(chord -> chord.span().contains(seconds))
        .findFirst()
        .map(ChordSpan::symbol)
        .orElse(ChordSymbol.NONE);
  }

  private static Chord diatonic(Chord chord, Key key) {
    for (int pitchClass = 0; pitchClass < 12; pitchClass++) {
      if (has(chord.pitchClassBits(), pitchClass) && !key.contains(pitchClass)) {
        return triad(chord.root(), key);
      }
    }
    return chord;
  }

  /** The key's triad on the degree that has the root's letter. */
  private static Chord triad(NoteName root, Key key) {
    List<NoteName> scale = key.scale();
    for (int step = 0; step < scale.size(); step++) {
      if (scale.get(step).letter() == root.letter()) {
        return key.triad(step);
      }
    }
    throw new AssertionError("A scale has every letter: " + key);
  }

  private Key keyAt(ChordSpan chord) {
    return keys.keyAt(chord.span().middleSeconds())
        .or(keys::mainKey)
        .orElse(new Key(new NoteName(0), Mode.MAJOR));
  }

  /** Whether more than half of a chord lies in the span; an early one reaches out of it. */
  private boolean inside(Span chord) {
    return chord.overlapSeconds(span) > 0.5 * Math.min(chord.lengthSeconds(), span.lengthSeconds());
  }

  private boolean begins(NoteEvent note) {
    return span.contains(note.span().startSeconds());
  }

  private Reading notes(Reading changed, UnaryOperator<NoteEvent> change) {
    Bass bass = new Bass(changed.get(Facet.BASS).notes().stream().map(change).toList());
    Reading with = changed.with(Facet.BASS, Derived.of(bass));
    Optional<Melody> tune = with.find(Facet.MELODY);
    return tune.isEmpty()
        ? with
        : with.with(
            Facet.MELODY,
            Derived.of(tune.get().withNotes(tune.get().notes().stream().map(change).toList())));
  }

  private Reading bass(List<NoteEvent> notes) {
    return reading.with(Facet.BASS, Derived.of(new Bass(notes)));
  }

  static List<NoteEvent> withoutOverlaps(List<NoteEvent> notes) {
    List<NoteEvent> sorted = new ArrayList<>(notes);
    sorted.sort(java.util.Comparator.comparing(note -> note.span().startSeconds()));
    List<NoteEvent> result = new ArrayList<>();
    for (int i = 0; i < sorted.size(); i++) {
      Span own = sorted.get(i).span();
      double next =
          i + 1 < sorted.size() ? sorted.get(i + 1).span().startSeconds() : own.endSeconds();
      double end = Math.min(own.endSeconds(), next);
      if (end > own.startSeconds()) {
        NoteEvent note = sorted.get(i);
        result.add(
            new NoteEvent(new Span(own.startSeconds(), end), note.midiPitch(), note.probability()));
      }
    }
    return result;
  }

  private static NoteEvent moved(NoteEvent note, double midiPitch) {
    return new NoteEvent(note.span(), Math.max(0, Math.min(127, midiPitch)), note.probability());
  }

  static ChordSpan with(ChordSpan chord, ChordSymbol symbol) {
    return new ChordSpan(
        chord.span(),
        symbol,
        chord.third(),
        chord.fifth(),
        chord.seventh(),
        chord.probability(),
        List.of(),
        Optional.empty());
  }

  private static boolean has(int bits, int pitchClass) {
    return (bits >> pitchClass & 1) == 1;
  }
}
