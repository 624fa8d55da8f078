package undersong.reading;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import undersong.theory.ChordQuality;
import undersong.theory.ChordSymbol;
import undersong.theory.Key;
import undersong.theory.Mode;
import undersong.theory.NoteName;
import undersong.theory.RomanNumeral;
import undersong.theory.ScaleDegree;
import undersong.time.BeatGrid;
import undersong.time.Span;

/**
 * A made-up reading with every facet: 120 bpm, 4/4, A natural minor, sections A B A of four bars,
 * the second A a whole tone up; one chord a bar (Am F C G), the G half a beat early.
 */
public final class SampleReadings {
  public static final double DURATION_SECONDS = 24;
  private static final String[] ROOTS = {"A", "F", "C", "G"};
  private static final String[] DEGREES = {"1", "b6", "b3", "b7"};

  private SampleReadings() {}

  public static Reading full() {
    return Reading.empty(DURATION_SECONDS)
        .with(Facet.TUNING, Derived.of(new Tuning(-7.5, 0.9)))
        .with(Facet.BEATS, Derived.of(beats()))
        .with(Facet.METER, Derived.of(meter()))
        .with(Facet.FORM, Derived.of(form()))
        .with(Facet.BASS, Derived.of(new Bass(notes(33, 29, 36, 31))))
        .with(
            Facet.MELODY,
            Derived.of(
                new Melody(
                    notes(69.25, 72, 76, 74),
                    List.of(new PitchStretch(0.5, 0.04, List.of(69.2, 69.31))),
                    List.of(new PitchStretch(0.6, 0.04, List.of(70.5))))))
        .with(Facet.CHORDS, Derived.of(chords()))
        .with(Facet.KEYS, Derived.of(keys()))
        .with(Facet.HARMONY, Derived.of(harmony()))
        .with(Facet.VOICES, Derived.of(voices()))
        .with(Facet.LINES, Derived.of(lines()))
        .with(Facet.DYNAMICS, Derived.of(dynamics()))
        .with(Facet.SPACE, Derived.of(space()))
        .with(Facet.TEXTURE, Derived.of(texture()))
        .with(Facet.ECHOES, Derived.of(echoes()))
        .with(Facet.REPEATS, Derived.of(repeats()))
        .with(Facet.MOTIFS, Derived.of(motifs()))
        .with(Facet.ROLES, Derived.of(roles()));
  }

  public static Beats beats() {
    double[] seconds = new double[48];
    for (int beat = 0; beat < seconds.length; beat++) {
      seconds[beat] = beat * 0.5;
    }
    return new Beats(BeatGrid.of(seconds), 2, 1.1, 0.9, List.of(new Candidate<>(60.0, 0.07)));
  }

  public static Meter meter() {
    List<Bar> bars = new ArrayList<>();
    for (int bar = 0; bar < 12; bar++) {
      bars.add(
          new Bar(bar + 1, 4 * bar, 4, TimeSignature.FOUR_FOUR, new Span(2 * bar, 2 * bar + 2)));
    }
    return new Meter(bars, 0.8, List.of(new Candidate<>(new TimeSignature(2, true), 0.1)));
  }

  public static Form form() {
    return new Form(
        List.of(
            new Section(new Span(0, 8), 1, 4, "A", 1, 0, 0.9),
            new Section(new Span(8, 16), 5, 8, "B", 1, 0, 0.4),
            new Section(new Span(16, 24), 9, 12, "A", 2, 2, 0.9)));
  }

  public static Chords chords() {
    List<ChordSpan> spans = new ArrayList<>();
    for (int bar = 0; bar < 12; bar++) {
      NoteName root = root(bar);
      spans.add(
          new ChordSpan(
              chordSpan(bar),
              ChordSymbol.of(root, bar % 4 == 0 ? ChordQuality.MINOR : ChordQuality.MAJOR),
              bar == 5 ? new Member(Presence.ABSENT, Presence.SOUNDING, "") : Member.SOUNDING,
              Member.SOUNDING,
              Member.ABSENT,
              bar == 6 ? 0.4 : 0.85,
              List.of(new Candidate<>(ChordSymbol.of(root, ChordQuality.FIFTH), 0.1)),
              bar == 7 ? Optional.of(ChordSymbol.NONE) : Optional.empty()));
    }
    return new Chords(spans);
  }

  private static Span chordSpan(int bar) {
    double start = bar % 4 == 3 ? 2 * bar - 0.25 : 2 * bar;
    double end = bar % 4 == 2 ? 2 * bar + 1.75 : 2 * bar + 2;
    return new Span(start, end);
  }

  private static NoteName root(int bar) {
    NoteName root = NoteName.parse(ROOTS[bar % 4]);
    return bar >= 8 ? root.up(2) : root;
  }

  private static List<NoteEvent> notes(double... midiPitches) {
    List<NoteEvent> notes = new ArrayList<>();
    for (int bar = 0; bar < 12; bar++) {
      notes.add(new NoteEvent(chordSpan(bar), midiPitches[bar % 4] + (bar >= 8 ? 2 : 0), 0.75));
    }
    return notes;
  }

  public static Keys keys() {
    Key minor = new Key(NoteName.parse("A"), Mode.NATURAL_MINOR);
    Key lifted = new Key(NoteName.parse("B"), Mode.NATURAL_MINOR);
    Key parallel = new Key(NoteName.parse("C"), Mode.MAJOR);
    return new Keys(
        List.of(
            new KeyRegion(new Span(0, 16), minor, 0.7, List.of(new Candidate<>(parallel, 0.2))),
            new KeyRegion(new Span(16, 24), lifted, 0.7, List.of())));
  }

  private static Harmony harmony() {
    List<HarmonyEvent> events = new ArrayList<>();
    List<Integer> changes = new ArrayList<>();
    for (int bar = 0; bar < 12; bar++) {
      ScaleDegree degree = ScaleDegree.parse(DEGREES[bar % 4]);
      events.add(
          new HarmonyEvent(
              chordSpan(bar),
              keys().regions().get(bar >= 8 ? 1 : 0).key(),
              Optional.of(
                  new RomanNumeral(
                      degree,
                      bar % 4 == 0 ? ChordQuality.MINOR : ChordQuality.MAJOR,
                      degree,
                      Optional.empty())),
              bar % 4 == 0 ? HarmonicFunction.TONIC : HarmonicFunction.OTHER,
              false,
              bar % 4 == 3 ? -0.5 : 0,
              0.8));
      changes.add(1);
    }
    return new Harmony(events, changes);
  }

  private static Dynamics dynamics() {
    List<Double> lufs = new ArrayList<>();
    List<Double> onsets = new ArrayList<>();
    for (int bar = 0; bar < 12; bar++) {
      lufs.add(-14.5 + 0.1 * bar);
      onsets.add(1.5);
    }
    return new Dynamics(-14, 3.2, lufs, onsets);
  }

  private static Space space() {
    List<BarWidth> bars = new ArrayList<>();
    for (int bar = 0; bar < 12; bar++) {
      double sideToMidDb = bar / 4 == 1 ? -8.5 : -20;
      bars.add(
          new BarWidth(
              sideToMidDb, Collections.nCopies(6, new BarWidth.BandWidth(sideToMidDb, 0.75))));
    }
    return new Space(
        bars,
        List.of(
            new PlacedEvent(
                new Span(0, 2), SoundSource.LEAD, OptionalDouble.empty(), 200, 4000, 0, -3, 0.9),
            new PlacedEvent(
                new Span(2, 2.5),
                SoundSource.LINE,
                OptionalDouble.of(76),
                650,
                700,
                -0.7,
                -12,
                0.8)),
        -0.5);
  }

  private static Texture texture() {
    List<BarTexture> bars =
        Collections.nCopies(
            12, new BarTexture(1.5, List.of(-30., -20., -18., -20., -24., -33.), 900, 2500, 0.1));
    return new Texture(
        List.of(
            new Layer(LayerKind.LEAD, new Span(0, 24), OptionalDouble.empty(), 0.9),
            new Layer(LayerKind.PLUCKED, new Span(8, 16), OptionalDouble.of(0.25), 0.6)),
        bars,
        List.of(new Gesture(Gesture.Kind.RISER, new Span(6, 8), 1.5, 9, 0.95, 0.7)),
        List.of(new Ducking(new Span(8, 16), 4.5, 0.01, 0.15, 0.8)));
  }

  private static Echoes echoes() {
    return new Echoes(
        List.of(
            new Echo(
                Echo.Kind.DELAY,
                new Span(2, 4),
                0.375,
                0.001,
                2,
                Optional.of(new NoteValue(3, 16)),
                0,
                List.of(new Echo.Repeat(-8, -0.6, -3), new Echo.Repeat(-15, 0.6, -5)),
                0.85)),
        List.of(new Reverb(new Span(0, 8), List.of(0., .9, 1.1, 1., .7, .4), -18, 2, 5, 0.5)));
  }

  private static Voices voices() {
    List<Voice.Sung> sung =
        notes(73, 76, 79, 78).stream().map(n -> new Voice.Sung(n, Optional.of(4))).toList();
    return new Voices(
        List.of(
            new Voice(
                "voice-2",
                sung,
                List.of(new PitchStretch(0.5, 0.04, List.of(73.1, 73.2))),
                List.of(
                    new Voice.Phrase(new Span(0, 24), VoiceKind.HARMONY, Optional.of(4), 0.7)))));
  }

  private static Lines lines() {
    return new Lines(
        List.of(
            new Line(
                "line-1",
                notes(57, 53, 60, 55),
                Optional.of(LineKind.PLUCKED),
                Optional.of(-0.4),
                0.6)),
        List.of(new Lines.Takeover("bass", "line-1", 2, 4, 0.5)));
  }

  private static Repeats repeats() {
    Span last = new Span(16, 24);
    ChordSymbol open = ChordSymbol.of(NoteName.parse("B"), ChordQuality.FIFTH);
    ChordSymbol minor = ChordSymbol.of(NoteName.parse("B"), ChordQuality.MINOR);
    NoteEvent added = new NoteEvent(new Span(16.5, 17), 62, 0.8);
    NoteEvent moved = new NoteEvent(new Span(18, 19), 67, 0.8);
    return new Repeats(
        List.of(
            new Repeat(
                last,
                "A",
                2,
                1,
                List.of(new Repeat.AlignedBar(9, List.of(1))),
                List.of(
                    new Repeat.NoteChange(
                        Repeat.NoteFate.ADDED,
                        "line-1",
                        added,
                        9,
                        2,
                        Optional.empty(),
                        Optional.of(3),
                        0.8),
                    new Repeat.NoteChange(
                        Repeat.NoteFate.MOVED,
                        "line-1",
                        moved,
                        10,
                        1,
                        Optional.of(66.0),
                        Optional.empty(),
                        0.6)),
                List.of(new Repeat.ChordChange(new Span(16, 18), 9, 1, open, minor, 0.7)),
                List.of(new Repeat.LayerChange(last, 9, "kick", true, 0.9)),
                List.of(new Repeat.PlaceChange(last, 9, "line-1", 0, -0.5, 0.6)),
                List.of(new Repeat.LevelChange(new Span(16, 18), 9, -16, -12, 0.9)),
                List.of(
                    new Repeat.Settled(
                        Repeat.ChordMember.THIRD,
                        open,
                        minor,
                        "line-1",
                        2,
                        2,
                        List.of(9),
                        new Span(16.5, 17),
                        0.7)))));
  }

  private static Motifs motifs() {
    return new Motifs(
        List.of(
            new Motif(
                "bass",
                List.of(new Motif.CellNote(0, 1, 0), new Motif.CellNote(1, 1, 7)),
                List.of(
                    new Motif.Occurrence(
                        new Span(0, 2), 1, 0, Optional.empty(), Motif.Likeness.EXACT, 1, 0.9),
                    new Motif.Occurrence(
                        new Span(2, 4), 2, 2, Optional.of(1), Motif.Likeness.SCALE_STEP, 0.9, 0.6)),
                true,
                0.6)),
        List.of(
            new Motifs.PartRange(new Span(0, 8), "melody", 69.25, 73, 76, Motifs.Contour.ARCH)));
  }

  private static Roles roles() {
    return new Roles(
        List.of(
            new Roles.NamedSection(new Span(0, 8), SectionRole.VERSE, SectionRole.VERSE, 0.8),
            new Roles.NamedSection(new Span(8, 16), SectionRole.BRIDGE, SectionRole.CHORUS, 0.4),
            new Roles.NamedSection(new Span(16, 24), SectionRole.VERSE, SectionRole.VERSE, 0.8)));
  }
}
