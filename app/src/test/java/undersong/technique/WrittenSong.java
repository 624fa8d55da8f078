package undersong.technique;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import undersong.estimate.SoundedFeatures;
import undersong.estimate.harmony.KeyedHarmonyEstimator;
import undersong.reading.Bar;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Dynamics;
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
import undersong.reading.SectionRole;
import undersong.reading.TimeSignature;
import undersong.theory.ChordSymbol;
import undersong.theory.Key;
import undersong.theory.LeadSheet;
import undersong.theory.SpelledPitch;
import undersong.time.BeatGrid;
import undersong.time.Span;

/**
 * A reading written by hand, at 120 bpm: sections of bars with chords ({@code "C | F G | Am"}, bars
 * cut evenly), a tune and a bass as {@code "e5@0-2"} (pitch, first and last beat of the song).
 */
public final class WrittenSong {
  private static final double BEAT_SECONDS = 0.5;

  private final int beatsPerBar;
  private final List<Part> parts = new ArrayList<>();
  private final List<Double> barLufs = new ArrayList<>();
  private final Map<Integer, Integer> oddBars = new HashMap<>();
  private String key;
  private List<NoteEvent> tune = List.of();
  private List<NoteEvent> bass = List.of();
  private double probability = 1;

  private WrittenSong(String key, int beatsPerBar) {
    this.key = key;
    this.beatsPerBar = beatsPerBar;
  }

  private record Part(
      SectionRole role, String letter, int transposed, String key, double early, String chords) {}

  /** A song in 4/4. */
  public static WrittenSong in(String key) {
    return new WrittenSong(key, 4);
  }

  /** From here on another key. */
  public WrittenSong key(String other) {
    key = other;
    return this;
  }

  public WrittenSong section(SectionRole role, String letter, String chords) {
    return section(role, letter, 0, 0, chords);
  }

  /**
   * @param early beats by which every chord but the song's first comes early
   */
  public WrittenSong section(
      SectionRole role, String letter, int transposed, double early, String chords) {
    parts.add(new Part(role, letter, transposed, key, early, chords));
    return this;
  }

  /** A bar with another number of beats; call it before the sections are read. */
  public WrittenSong bar(int number, int beats) {
    oddBars.put(number, beats);
    return this;
  }

  public WrittenSong tune(String notes) {
    tune = notes(notes);
    return this;
  }

  public WrittenSong bass(String notes) {
    bass = notes(notes);
    return this;
  }

  /** Loudness of the next bars. */
  public WrittenSong lufs(double... bars) {
    for (double bar : bars) {
      barLufs.add(bar);
    }
    return this;
  }

  /** Every chord is only so sure. */
  public WrittenSong sure(double chordProbability) {
    probability = chordProbability;
    return this;
  }

  public Reading reading() {
    List<Bar> bars = new ArrayList<>();
    List<ChordSpan> chords = new ArrayList<>();
    List<Section> sections = new ArrayList<>();
    List<Roles.NamedSection> roles = new ArrayList<>();
    List<KeyRegion> keys = new ArrayList<>();
    Map<String, Integer> copies = new HashMap<>();
    int beat = 0;
    for (Part part : parts) {
      int firstBar = bars.size() + 1;
      int firstBeat = beat;
      for (String bar : part.chords().split("\\|", -1)) {
        int number = bars.size() + 1;
        int beats = oddBars.getOrDefault(number, beatsPerBar);
        String[] symbols = bar.strip().split("\\s+", -1);
        for (int i = 0; i < symbols.length; i++) {
          double start = beat + (double) i * beats / symbols.length;
          double early = chords.isEmpty() ? 0 : part.early();
          addChord(chords, symbols[i], (start - early) * BEAT_SECONDS);
        }
        bars.add(
            new Bar(
                number, beat, beats, new TimeSignature(beats, false), seconds(beat, beat + beats)));
        beat += beats;
      }
      Span span = seconds(firstBeat, beat);
      int occurrence = copies.merge(part.letter(), 1, Integer::sum);
      sections.add(
          new Section(
              span, firstBar, bars.size(), part.letter(), occurrence, part.transposed(), 1));
      roles.add(new Roles.NamedSection(span, part.role(), part.role(), 1));
      keys.add(new KeyRegion(span, Key.parse(part.key()), 1, List.of()));
    }
    double end = beat * BEAT_SECONDS;
    closeLast(chords, end);
    double[] grid = new double[beat + 1];
    for (int i = 0; i < grid.length; i++) {
      grid[i] = i * BEAT_SECONDS;
    }
    Reading reading =
        Reading.empty(end)
            .with(Facet.BEATS, Derived.of(new Beats(BeatGrid.of(grid), 2, 1, 1, List.of())))
            .with(Facet.METER, Derived.of(new Meter(bars, 1, List.of())))
            .with(Facet.FORM, Derived.of(new Form(sections)))
            .with(Facet.BASS, Derived.of(new Bass(bass)))
            .with(Facet.MELODY, Derived.of(new Melody(tune)))
            .with(Facet.CHORDS, Derived.of(new Chords(chords)))
            .with(Facet.KEYS, Derived.of(new Keys(joined(keys))))
            .with(Facet.ROLES, Derived.of(new Roles(roles)));
    reading =
        reading.with(
            Facet.HARMONY,
            new KeyedHarmonyEstimator()
                .estimate(new SoundedFeatures(1, 0).features(), reading, Corrections.NONE));
    return barLufs.isEmpty() ? reading : reading.with(Facet.DYNAMICS, Derived.of(dynamics(bars)));
  }

  private Dynamics dynamics(List<Bar> bars) {
    List<Double> onsets = bars.stream().map(bar -> 1.0).toList();
    return new Dynamics(-14, 5, barLufs, onsets);
  }

  private void addChord(List<ChordSpan> chords, String symbol, double start) {
    closeLast(chords, start);
    ChordSymbol parsed = symbol.equals("N") ? ChordSymbol.NONE : LeadSheet.parse(symbol);
    Member third =
        parsed instanceof ChordSymbol.Chord chord && !chord.quality().hasNoThird()
            ? Member.SOUNDING
            : Member.ABSENT;
    chords.add(
        new ChordSpan(
            new Span(start, start + 1e6),
            parsed,
            third,
            Member.SOUNDING,
            Member.SOUNDING,
            probability,
            List.of(),
            Optional.empty()));
  }

  private static void closeLast(List<ChordSpan> chords, double end) {
    if (!chords.isEmpty()) {
      ChordSpan last = chords.remove(chords.size() - 1);
      chords.add(
          new ChordSpan(
              new Span(last.span().startSeconds(), end),
              last.symbol(),
              last.third(),
              last.fifth(),
              last.seventh(),
              last.probability(),
              last.runnersUp(),
              last.besides()));
    }
  }

  private static List<KeyRegion> joined(List<KeyRegion> regions) {
    List<KeyRegion> joined = new ArrayList<>();
    for (KeyRegion region : regions) {
      int last = joined.size() - 1;
      if (last >= 0 && joined.get(last).key().equals(region.key())) {
        Span both = new Span(joined.get(last).span().startSeconds(), region.span().endSeconds());
        joined.set(last, new KeyRegion(both, region.key(), 1, List.of()));
      } else {
        joined.add(region);
      }
    }
    return joined;
  }

  private static List<NoteEvent> notes(String text) {
    List<NoteEvent> notes = new ArrayList<>();
    for (String word : text.strip().split("\\s+", -1)) {
      String[] parts = word.split("[@-]", -1);
      String pitch = parts[0].substring(0, 1).toUpperCase(Locale.ROOT) + parts[0].substring(1);
      notes.add(
          new NoteEvent(
              seconds(Double.parseDouble(parts[1]), Double.parseDouble(parts[2])),
              SpelledPitch.parse(pitch).midi(),
              1));
    }
    return notes;
  }

  private static Span seconds(double fromBeat, double toBeat) {
    return new Span(fromBeat * BEAT_SECONDS, toBeat * BEAT_SECONDS);
  }

  /** Ids and bars of what is found, as {@code borrowed-chord 3-3}. */
  public static List<String> told(List<TechniqueFinder> finders, Reading reading) {
    return new Techniques(finders, Calibration.NONE)
        .in(reading).stream().map(WrittenSong::words).toList();
  }

  private static String words(Finding finding) {
    String bars = finding.bars().map(range -> range.first() + "-" + range.last()).orElse("?");
    return finding.technique().id() + " " + bars;
  }
}
