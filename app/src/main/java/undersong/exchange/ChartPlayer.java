package undersong.exchange;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import undersong.exchange.ChordChart.ChartBar;
import undersong.exchange.ChordChart.ChartChange;
import undersong.reading.Bar;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.KeyRegion;
import undersong.reading.Keys;
import undersong.reading.Melody;
import undersong.reading.Member;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Roles;
import undersong.reading.Section;
import undersong.theory.ChordSymbol;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.Key;
import undersong.time.BeatGrid;
import undersong.time.Span;

/** Lays a chart out in even time. */
final class ChartPlayer {
  /** Bass notes are written in the octave from E1 up. */
  private static final int LOWEST_BASS = 28;

  private final List<ChartBar> bars;
  private final double beatSeconds;
  private final int[] firstBeats;

  ChartPlayer(ChordChart chart, double beatSeconds) {
    this.bars = chart.bars();
    this.beatSeconds = beatSeconds;
    this.firstBeats = new int[bars.size() + 1];
    for (int i = 0; i < bars.size(); i++) {
      firstBeats[i + 1] = firstBeats[i] + bars.get(i).signature().beats();
    }
  }

  Reading reading() {
    List<ChordSpan> spans = spans();
    return Reading.empty(endSeconds())
        .with(Facet.BEATS, Derived.of(new Beats(grid(), 2, 1, 1, List.of())))
        .with(Facet.METER, Derived.of(meter()))
        .with(Facet.FORM, Derived.of(form()))
        .with(Facet.BASS, Derived.of(bass(spans)))
        .with(Facet.MELODY, Derived.of(Melody.NONE))
        .with(Facet.CHORDS, Derived.of(new Chords(spans)))
        .with(Facet.KEYS, Derived.of(keys()))
        .with(Facet.ROLES, Derived.of(roles()));
  }

  private double endSeconds() {
    return firstBeats[bars.size()] * beatSeconds;
  }

  private Span span(int fromBar, int toBar) {
    return new Span(firstBeats[fromBar] * beatSeconds, firstBeats[toBar] * beatSeconds);
  }

  private BeatGrid grid() {
    double[] seconds = new double[Math.max(2, firstBeats[bars.size()] + 1)];
    for (int beat = 0; beat < seconds.length; beat++) {
      seconds[beat] = beat * beatSeconds;
    }
    return BeatGrid.of(seconds);
  }

  private Meter meter() {
    List<Bar> laidOut = new ArrayList<>();
    for (int i = 0; i < bars.size(); i++) {
      ChartBar bar = bars.get(i);
      laidOut.add(
          new Bar(i + 1, firstBeats[i], bar.signature().beats(), bar.signature(), span(i, i + 1)));
    }
    return new Meter(laidOut, 1, List.of());
  }

  /** Bars at which something begins, and the end; the first bar always begins something. */
  private interface Begins {
    boolean at(ChartBar before, ChartBar here);
  }

  private List<Integer> cuts(Begins begins) {
    List<Integer> cuts = new ArrayList<>(List.of(0));
    for (int i = 1; i < bars.size(); i++) {
      if (begins.at(bars.get(i - 1), bars.get(i))) {
        cuts.add(i);
      }
    }
    cuts.add(bars.size());
    return cuts;
  }

  private List<Integer> sectionCuts() {
    return cuts((before, here) -> here.opensSection());
  }

  private Form form() {
    List<Integer> cuts = sectionCuts();
    Map<String, Integer> seen = new HashMap<>();
    Map<String, Key> first = new HashMap<>();
    List<Section> sections = new ArrayList<>();
    for (int i = 0; i + 1 < cuts.size(); i++) {
      ChartBar opening = bars.get(cuts.get(i));
      Key model = first.computeIfAbsent(opening.letter(), letter -> opening.key());
      int up = opening.key().tonic().pitchClass() - model.tonic().pitchClass();
      sections.add(
          new Section(
              span(cuts.get(i), cuts.get(i + 1)),
              cuts.get(i) + 1,
              cuts.get(i + 1),
              opening.letter(),
              seen.merge(opening.letter(), 1, Integer::sum),
              Math.floorMod(up + 5, 12) - 5,
              1));
    }
    return new Form(sections);
  }

  private Roles roles() {
    List<Integer> cuts = sectionCuts();
    List<Roles.NamedSection> named = new ArrayList<>();
    for (int i = 0; i + 1 < cuts.size(); i++) {
      ChartBar opening = bars.get(cuts.get(i));
      named.add(
          new Roles.NamedSection(
              span(cuts.get(i), cuts.get(i + 1)), opening.role(), opening.role(), 1));
    }
    return new Roles(named);
  }

  private Keys keys() {
    List<Integer> cuts = cuts((before, here) -> !here.key().equals(before.key()));
    List<KeyRegion> regions = new ArrayList<>();
    for (int i = 0; i + 1 < cuts.size(); i++) {
      Key key = bars.get(cuts.get(i)).key();
      regions.add(new KeyRegion(span(cuts.get(i), cuts.get(i + 1)), key, 1, List.of()));
    }
    return new Keys(regions);
  }

  private List<ChordSpan> spans() {
    List<Double> starts = new ArrayList<>();
    List<ChordSymbol> symbols = new ArrayList<>();
    for (int i = 0; i < bars.size(); i++) {
      for (ChartChange change : bars.get(i).changes()) {
        boolean goesOn =
            !symbols.isEmpty() && symbols.get(symbols.size() - 1).equals(change.symbol());
        if (!goesOn) {
          starts.add((firstBeats[i] + change.beat()) * beatSeconds);
          symbols.add(change.symbol());
        }
      }
    }
    List<ChordSpan> spans = new ArrayList<>();
    for (int i = 0; i < starts.size(); i++) {
      double end = i + 1 < starts.size() ? starts.get(i + 1) : endSeconds();
      spans.add(chordSpan(new Span(starts.get(i), end), symbols.get(i)));
    }
    return spans;
  }

  static ChordSpan chordSpan(Span span, ChordSymbol symbol) {
    return new ChordSpan(
        span,
        symbol,
        member(symbol, 3, 4),
        member(symbol, 6, 7, 8),
        member(symbol, 10, 11),
        1,
        List.of(),
        Optional.empty());
  }

  private static Member member(ChordSymbol symbol, int... semitones) {
    if (symbol instanceof Chord chord) {
      for (int s : semitones) {
        if (chord.degrees().stream().anyMatch(degree -> degree.semitones() == s)) {
          return Member.SOUNDING;
        }
      }
    }
    return Member.ABSENT;
  }

  private static Bass bass(List<ChordSpan> spans) {
    List<NoteEvent> notes = new ArrayList<>();
    for (ChordSpan span : spans) {
      if (span.symbol() instanceof Chord chord) {
        int pitch = LOWEST_BASS + Math.floorMod(chord.bass().pitchClass() - LOWEST_BASS, 12);
        notes.add(new NoteEvent(span.span(), pitch, 1));
      }
    }
    return new Bass(notes);
  }
}
