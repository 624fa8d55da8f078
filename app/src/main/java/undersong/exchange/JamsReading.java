package undersong.exchange;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import undersong.reading.Bar;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Correction;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.KeyRegion;
import undersong.reading.Keys;
import undersong.reading.Melody;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Roles;
import undersong.reading.TimeSignature;
import undersong.theory.ChordSymbol;
import undersong.time.BeatGrid;
import undersong.time.Span;

/**
 * What a JAMS file says as a reading of its own, where no recording is at hand: beats, bars, keys,
 * chords, bass and tune, all taken as certain. Its form is not read.
 */
public final class JamsReading {
  private final List<Correction> said;
  private final double durationSeconds;

  private JamsReading(List<Correction> said, double durationSeconds) {
    this.said = said;
    this.durationSeconds = durationSeconds;
  }

  /** Throws where the file states no chords: then it says nothing to search or count. */
  public static Reading of(JamsReader.Said said, double durationSeconds) {
    return new JamsReading(said.corrections(), durationSeconds).reading();
  }

  private Reading reading() {
    List<ChordSpan> chords = chords();
    if (chords.isEmpty()) {
      throw new IllegalArgumentException("it states no chords");
    }
    List<Double> beats =
        of(Correction.BeatAt.class).stream().map(Correction.BeatAt::seconds).sorted().toList();
    boolean pulse = beats.size() >= 2;
    BeatGrid grid =
        pulse
            ? BeatGrid.of(beats.stream().mapToDouble(Double::doubleValue).toArray())
            : BeatGrid.NO_PULSE;
    Meter meter = new Meter(pulse ? bars(beats) : List.of(), pulse ? 1 : 0, List.of());
    return Reading.empty(durationSeconds)
        .with(Facet.BEATS, Derived.of(new Beats(grid, 2, 1, pulse ? 1 : 0, List.of())))
        .with(Facet.METER, Derived.of(meter))
        .with(Facet.FORM, Derived.of(new Form(List.of())))
        .with(Facet.BASS, Derived.of(new Bass(bass())))
        .with(Facet.MELODY, Derived.of(new Melody(melody())))
        .with(Facet.CHORDS, Derived.of(new Chords(chords)))
        .with(Facet.KEYS, Derived.of(keys()))
        .with(Facet.ROLES, Derived.of(new Roles(List.of())));
  }

  private <C extends Correction> List<C> of(Class<C> kind) {
    return said.stream().filter(kind::isInstance).map(kind::cast).toList();
  }

  private List<Bar> bars(List<Double> beats) {
    List<Integer> downbeats =
        of(Correction.DownbeatAt.class).stream()
            .map(down -> beats.indexOf(down.seconds()))
            .filter(beat -> beat >= 0)
            .sorted()
            .toList();
    List<Bar> bars = new ArrayList<>();
    for (int i = 0; i + 1 < downbeats.size(); i++) {
      int first = downbeats.get(i);
      int count = downbeats.get(i + 1) - first;
      Span span = new Span(beats.get(first), beats.get(first + count));
      bars.add(new Bar(i + 1, first, count, signature(span, count), span));
    }
    return bars;
  }

  private TimeSignature signature(Span bar, int beats) {
    return of(Correction.MeterOver.class).stream()
        .filter(meter -> meter.span().contains(bar.middleSeconds()))
        .map(Correction.MeterOver::signature)
        .filter(signature -> signature.beats() == beats)
        .findFirst()
        .orElseGet(() -> new TimeSignature(beats, false));
  }

  private List<ChordSpan> chords() {
    List<ChordSpan> chords = new ArrayList<>();
    for (Correction.ChordOver chord : of(Correction.ChordOver.class)) {
      chords.add(ChartPlayer.chordSpan(chord.span(), chord.chord()));
    }
    chords.sort(Comparator.comparingDouble(chord -> chord.span().startSeconds()));
    return filled(chords);
  }

  /** Chords must follow each other without a gap: where nothing is said, none sounds. */
  private List<ChordSpan> filled(List<ChordSpan> chords) {
    List<ChordSpan> filled = new ArrayList<>();
    double end = 0;
    for (ChordSpan chord : chords) {
      if (chord.span().startSeconds() - end > 1e-3) {
        filled.add(
            ChartPlayer.chordSpan(new Span(end, chord.span().startSeconds()), ChordSymbol.NONE));
      }
      filled.add(chord);
      end = chord.span().endSeconds();
    }
    return filled;
  }

  private Keys keys() {
    return new Keys(
        of(Correction.KeyOver.class).stream()
            .map(key -> new KeyRegion(key.span(), key.key(), 1, List.of()))
            .sorted(Comparator.comparingDouble(region -> region.span().startSeconds()))
            .toList());
  }

  private List<NoteEvent> bass() {
    return of(Correction.BassNoteOver.class).stream()
        .map(note -> new NoteEvent(note.span(), note.midiPitch(), 1))
        .toList();
  }

  private List<NoteEvent> melody() {
    return of(Correction.MelodyNoteOver.class).stream()
        .map(note -> new NoteEvent(note.span(), note.midiPitch(), 1))
        .toList();
  }
}
