package undersong.estimate.repeat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import undersong.reading.Bar;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Derived;
import undersong.reading.Dynamics;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.Line;
import undersong.reading.Lines;
import undersong.reading.Melody;
import undersong.reading.Member;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Section;
import undersong.reading.Space;
import undersong.reading.Texture;
import undersong.reading.TimeSignature;
import undersong.reading.Voices;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.HarteSyntax;
import undersong.time.BeatGrid;
import undersong.time.Span;

/**
 * A made-up song, 120 bpm, 4/4: a section of four bars and the same again, the second copy written
 * as the first and then changed.
 */
final class TwoCopies {
  static final int BARS = 4;
  static final double COPY_SECONDS = 8;

  final List<NoteEvent> bass = new ArrayList<>();
  final List<NoteEvent> melody = new ArrayList<>();
  final List<NoteEvent> line = new ArrayList<>();
  final List<String> chords = new ArrayList<>();
  final List<Double> barLufs = new ArrayList<>();
  int liftSemitones;

  /** Both copies alike: bass roots, a tune, and a broken open fifth on every beat. */
  static TwoCopies alike(int liftSemitones, String... harte) {
    TwoCopies song = new TwoCopies();
    song.liftSemitones = liftSemitones;
    for (int copy = 0; copy < 2; copy++) {
      int up = copy * liftSemitones;
      for (int bar = 0; bar < BARS; bar++) {
        Chord chord = (Chord) HarteSyntax.parse(harte[bar % harte.length]);
        int root = chord.root().pitchClass() + up;
        song.chords.add(transposed(harte[bar % harte.length], up));
        song.barLufs.add(-14.0);
        double start = copy * COPY_SECONDS + 2 * bar;
        song.bass.add(note(start, 1.9, 36 + root));
        song.melody.add(note(start, 0.9, 72 + up + bar));
        song.melody.add(note(start + 1, 0.9, 74 + up + bar));
        song.line.add(note(start, 0.45, 48 + root));
        song.line.add(note(start + 1, 0.45, 55 + root));
      }
    }
    return song;
  }

  private static String transposed(String harte, int semitones) {
    if (semitones == 0) {
      return harte;
    }
    Chord chord = (Chord) HarteSyntax.parse(harte);
    int pitchClass = Math.floorMod(chord.root().pitchClass() + semitones, 12);
    return undersong.theory.NoteName.ofPitchClass(pitchClass, 0)
        + harte.substring(chord.root().toString().length());
  }

  static NoteEvent note(double start, double length, double midi) {
    return new NoteEvent(new Span(start, start + length), midi, 0.9);
  }

  Reading reading() {
    double[] beats = new double[8 * BARS + 1];
    for (int i = 0; i < beats.length; i++) {
      beats[i] = 0.5 * i;
    }
    List<Bar> bars = new ArrayList<>();
    List<ChordSpan> spans = new ArrayList<>();
    for (int bar = 0; bar < 2 * BARS; bar++) {
      Span span = new Span(2 * bar, 2 * bar + 2);
      bars.add(new Bar(bar + 1, 4 * bar, 4, TimeSignature.FOUR_FOUR, span));
      boolean open = chords.get(bar).endsWith(":5");
      spans.add(
          new ChordSpan(
              span,
              HarteSyntax.parse(chords.get(bar)),
              open ? Member.ABSENT : Member.SOUNDING,
              Member.SOUNDING,
              Member.ABSENT,
              0.9,
              List.of(),
              Optional.empty()));
    }
    Section first = new Section(new Span(0, COPY_SECONDS), 1, BARS, "A", 1, 0, 0.9);
    Section second =
        new Section(
            new Span(COPY_SECONDS, 2 * COPY_SECONDS),
            BARS + 1,
            2 * BARS,
            "A",
            2,
            liftSemitones,
            0.9);
    return Reading.empty(2 * COPY_SECONDS)
        .with(Facet.BEATS, Derived.of(new Beats(BeatGrid.of(beats), 2, 1, 0.9, List.of())))
        .with(Facet.METER, Derived.of(new Meter(bars, 0.9, List.of())))
        .with(Facet.FORM, Derived.of(new Form(List.of(first, second))))
        .with(Facet.BASS, Derived.of(new Bass(bass)))
        .with(Facet.MELODY, Derived.of(new Melody(melody)))
        .with(Facet.CHORDS, Derived.of(new Chords(spans)))
        .with(Facet.VOICES, Derived.of(Voices.NONE))
        .with(
            Facet.LINES,
            Derived.of(
                new Lines(
                    List.of(
                        new Line("line-1", sorted(line), Optional.empty(), Optional.empty(), 0.9)),
                    List.of())))
        .with(Facet.DYNAMICS, Derived.of(new Dynamics(-14, 2, barLufs, List.of())))
        .with(Facet.SPACE, Derived.of(Space.NONE))
        .with(Facet.TEXTURE, Derived.of(Texture.NONE));
  }

  private static List<NoteEvent> sorted(List<NoteEvent> notes) {
    return notes.stream()
        .sorted(java.util.Comparator.comparingDouble(n -> n.span().startSeconds()))
        .toList();
  }
}
