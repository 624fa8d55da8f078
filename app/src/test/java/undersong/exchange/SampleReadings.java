package undersong.exchange;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import undersong.reading.Bar;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.HarmonicFunction;
import undersong.reading.Harmony;
import undersong.reading.HarmonyEvent;
import undersong.reading.KeyRegion;
import undersong.reading.Keys;
import undersong.reading.Melody;
import undersong.reading.Member;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Roles;
import undersong.reading.Section;
import undersong.reading.SectionRole;
import undersong.reading.TimeSignature;
import undersong.reading.Tuning;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.HarteSyntax;
import undersong.theory.Key;
import undersong.theory.Numerals;
import undersong.time.BeatGrid;
import undersong.time.Span;

/** An invented reading: 24 bars with a wandering beat, one chord a bar, two keys, four sections. */
final class SampleReadings {
  static final int BARS = 24;
  private static final List<String> CHORDS =
      List.of("A:min", "D:min7/b3", "N", "E:7(b9)", "A:5", "F:maj", "B:hdim7", "E:(1,5,b7)");

  private SampleReadings() {}

  /**
   * @param upbeats beats before the first bar line
   */
  static Reading of(TimeSignature signature, int upbeats, long seed) {
    Random random = new Random(seed);
    int beats = upbeats + BARS * signature.beats() + 1;
    double[] seconds = new double[beats];
    double now = 1.2345;
    for (int i = 0; i < beats; i++) {
      seconds[i] = now;
      now += 0.5 + 0.05 * Math.sin(i / 9.0) + 0.01 * random.nextDouble();
    }
    BeatGrid grid = BeatGrid.of(seconds);
    Reading reading = Reading.empty(now + 2);
    reading = reading.with(Facet.TUNING, Derived.of(new Tuning(-14, 0.9)));
    reading = reading.with(Facet.BEATS, Derived.of(new Beats(grid, 2, 1, 0.8, List.of())));
    List<Bar> bars = new ArrayList<>();
    for (int bar = 0; bar < BARS; bar++) {
      int first = upbeats + bar * signature.beats();
      Span span = new Span(seconds[first], seconds[first + signature.beats()]);
      bars.add(new Bar(bar + 1, first, signature.beats(), signature, span));
    }
    reading = reading.with(Facet.METER, Derived.of(new Meter(bars, 0.7, List.of())));
    reading = form(reading, bars);
    return harmony(reading, bars);
  }

  private static Reading form(Reading reading, List<Bar> bars) {
    String[] letters = {"A", "B", "A", "B"};
    SectionRole[] roles = {
      SectionRole.VERSE, SectionRole.CHORUS, SectionRole.VERSE, SectionRole.CHORUS
    };
    List<Section> sections = new ArrayList<>();
    List<Roles.NamedSection> named = new ArrayList<>();
    for (int i = 0; i < 4; i++) {
      Bar first = bars.get(6 * i);
      Bar last = bars.get(6 * i + 5);
      Span span = new Span(first.span().startSeconds(), last.span().endSeconds());
      sections.add(
          new Section(span, first.number(), last.number(), letters[i], 1 + i / 2, 0, 0.75));
      SectionRole place = i == 3 ? SectionRole.BRIDGE : roles[i];
      named.add(new Roles.NamedSection(span, place, roles[i], 0.6));
    }
    return reading
        .with(Facet.FORM, Derived.of(new Form(sections)))
        .with(Facet.ROLES, Derived.of(new Roles(named)));
  }

  private static Reading harmony(Reading reading, List<Bar> bars) {
    Key key = Key.parse("A harmonic minor");
    Key later = Key.parse("D dorian");
    Span early = new Span(bars.get(0).span().startSeconds(), bars.get(12).span().startSeconds());
    Span late = new Span(early.endSeconds(), bars.get(BARS - 1).span().endSeconds());
    List<ChordSpan> chords = new ArrayList<>();
    List<HarmonyEvent> events = new ArrayList<>();
    List<NoteEvent> bass = new ArrayList<>();
    List<NoteEvent> melody = new ArrayList<>();
    for (Bar bar : bars) {
      var symbol = HarteSyntax.parse(CHORDS.get(bar.number() % CHORDS.size()));
      Member member = Member.SOUNDING;
      chords.add(
          new ChordSpan(
              bar.span(), symbol, member, member, member, 0.65, List.of(), Optional.empty()));
      Key here = bar.number() <= 12 ? key : later;
      Optional<undersong.theory.RomanNumeral> numeral =
          symbol instanceof Chord chord ? Optional.of(Numerals.of(chord, here)) : Optional.empty();
      events.add(
          new HarmonyEvent(bar.span(), here, numeral, HarmonicFunction.OTHER, false, -0.5, 0.65));
      if (symbol instanceof Chord chord) {
        bass.add(new NoteEvent(bar.span(), 36 + chord.bass().pitchClass(), 0.55));
        Span half = new Span(bar.span().startSeconds(), bar.span().middleSeconds());
        melody.add(new NoteEvent(half, 60.25 + chord.root().pitchClass(), 0.5));
      }
    }
    return reading
        .with(Facet.CHORDS, Derived.of(new Chords(chords)))
        .with(
            Facet.KEYS,
            Derived.of(
                new Keys(
                    List.of(
                        new KeyRegion(early, key, 0.9, List.of()),
                        new KeyRegion(late, later, 0.85, List.of())))))
        .with(Facet.HARMONY, Derived.of(new Harmony(events, List.of())))
        .with(Facet.BASS, Derived.of(new Bass(bass)))
        .with(Facet.MELODY, Derived.of(new Melody(melody)));
  }
}
