package undersong.bench.peers;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import undersong.bench.metrics.ChordCode;
import undersong.bench.metrics.KeyLabel;
import undersong.bench.metrics.PitchCurve;
import undersong.bench.metrics.SungNote;
import undersong.bench.metrics.Timed;
import undersong.bench.render.Truth;
import undersong.reading.Beats;
import undersong.reading.Chords;
import undersong.reading.Dynamics;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.KeyRegion;
import undersong.reading.Keys;
import undersong.reading.Melody;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.PitchStretch;
import undersong.reading.Reading;
import undersong.study.Study;
import undersong.theory.ChordSymbol;
import undersong.theory.Key;
import undersong.time.Span;

/**
 * Undersong itself, by the path every user takes: study a file on a new shelf, read the reading.
 */
public final class Program implements Listener {
  /** Semitones by which decoded chords are moved: a deliberate fault that the page must show. */
  public static final String FAULT_PROPERTY = "undersong.bench.fault.chordSemitones";

  private static final double CURVE_STEP_SECONDS = 0.01;

  @Override
  public String name() {
    return "undersong";
  }

  @Override
  public Heard hear(Path audio, Truth truth) throws IOException {
    Path folder = Files.createTempDirectory("shelf");
    long before = System.nanoTime();
    Reading reading = study(audio, folder);
    double seconds = (System.nanoTime() - before) / 1e9;
    delete(folder);
    Runtime runtime = Runtime.getRuntime();
    return of(reading)
        .withCosts(
            Map.of(
                "speed.realTimeFactor",
                seconds / truth.durationSeconds(),
                "memory.heapMegabytes",
                (runtime.totalMemory() - runtime.freeMemory()) / 1e6));
  }

  /** The reading of a recording, studied on a new shelf in a folder of its own. */
  public static Reading study(Path audio, Path folder) {
    try (Study study = Study.on(folder.resolve("shelf.db"))) {
      return study.study(audio).stored().reading();
    }
  }

  /** Removes a folder with all that is in it. */
  public static void delete(Path folder) throws IOException {
    try (var left = Files.walk(folder)) {
      left.sorted(java.util.Comparator.reverseOrder()).map(Path::toFile).forEach(f -> f.delete());
    }
  }

  /** A reading in the shape in which all are scored. */
  public static Heard of(Reading reading) {
    Beats beats = reading.get(Facet.BEATS);
    Meter meter = reading.get(Facet.METER);
    Keys keys = reading.get(Facet.KEYS);
    Chords chords = reading.get(Facet.CHORDS);
    List<NoteEvent> bass = reading.get(Facet.BASS).notes();
    Melody melody = reading.get(Facet.MELODY);
    Form form = reading.get(Facet.FORM);
    double cents = reading.get(Facet.TUNING).cents();
    Dynamics dynamics = reading.get(Facet.DYNAMICS);
    return new Heard(
        Optional.of(
            new Heard.Pulse(
                list(beats.grid().toArray()),
                beats.grid().isEmpty() ? Optional.empty() : Optional.of(beats.grid().medianBpm()))),
        Optional.of(
            new Heard.Bars(
                meter.bars().stream().map(b -> b.span().startSeconds()).toList(),
                meter.mainSignature().toString())),
        Optional.of(cents),
        Optional.of(
            new Heard.Tonality(
                keys.regions().stream().map(r -> timed(r.span(), label(r.key()))).toList(),
                chords.spans().stream().map(c -> timed(c.span(), code(c.symbol()))).toList())),
        Optional.of(
            new Heard.Lines(
                notes(bass),
                notes(melody.notes()),
                curve(melody, cents, reading.durationSeconds()))),
        Optional.of(form.sections().stream().map(s -> timed(s.span(), s.letter())).toList()),
        Optional.of(ReadProduction.of(reading)),
        Optional.of(new Heard.Loudness(dynamics.integratedLufs(), dynamics.rangeLu())),
        new Heard.Sureness(
            Optional.of(beats.probability()),
            Optional.of(meter.probability()),
            keys.regions().stream().map(KeyRegion::probability).toList(),
            chords.spans().stream().map(c -> c.probability()).toList(),
            bass.stream().map(NoteEvent::probability).toList(),
            melody.notes().stream().map(NoteEvent::probability).toList(),
            form.sections().stream().map(s -> s.probability()).toList()),
        Map.of());
  }

  private static <T> Timed<T> timed(Span span, T value) {
    return new Timed<>(span.startSeconds(), span.endSeconds(), value);
  }

  private static List<Double> list(double[] values) {
    return java.util.Arrays.stream(values).boxed().toList();
  }

  /** A key as references name it. */
  public static KeyLabel label(Key key) {
    // no reference tells the three forms of minor apart
    String mode = key.mode().isMinor() ? "minor" : key.mode().words();
    return new KeyLabel(key.tonic().pitchClass(), mode);
  }

  /** The code of a symbol, with the deliberate fault where one is asked for. */
  static ChordCode code(ChordSymbol symbol) {
    if (!(symbol instanceof ChordSymbol.Chord chord)) {
      return symbol == ChordSymbol.NONE ? ChordCode.NONE : ChordCode.UNKNOWN;
    }
    int bits = chord.quality().bits();
    // ninths are folded to their sevenths, as the field compares them
    if (chord.quality().harte().endsWith("9")) {
      bits &= ~(1 << 2);
    }
    for (int added : chord.addedSemitones()) {
      if (added < 12) {
        bits |= 1 << added;
      }
    }
    return ChordCode.of(chord.root().pitchClass(), bits, chord.bassSemitones())
        .transposed(Integer.getInteger(FAULT_PROPERTY, 0));
  }

  private static List<SungNote> notes(List<NoteEvent> notes) {
    return notes.stream()
        .map(n -> new SungNote(n.span().startSeconds(), n.span().endSeconds(), n.midiPitch()))
        .toList();
  }

  /**
   * The melody's curve, or where none was kept its notes at the recording's tuning. The pitch that
   * was followed where the tune is taken to rest is negative, as mir_eval reads a guess without
   * voicing.
   */
  public static PitchCurve curve(Melody melody, double tuningCents, double durationSeconds) {
    int frames = (int) (durationSeconds / CURVE_STEP_SECONDS) + 1;
    double[] seconds = new double[frames];
    double[] hertz = new double[frames];
    for (int i = 0; i < frames; i++) {
      seconds[i] = i * CURVE_STEP_SECONDS;
    }
    for (NoteEvent note : melody.curve().isEmpty() ? melody.notes() : List.<NoteEvent>of()) {
      int to = (int) Math.min(frames - 1, note.span().endSeconds() / CURVE_STEP_SECONDS);
      int from = (int) Math.ceil(note.span().startSeconds() / CURVE_STEP_SECONDS);
      for (int i = from; i <= to; i++) {
        hertz[i] = hertz(note.midiPitch() + tuningCents / 100);
      }
    }
    melody.unsure().forEach(stretch -> lay(stretch, -1, hertz));
    melody.curve().forEach(stretch -> lay(stretch, 1, hertz));
    return new PitchCurve(seconds, hertz);
  }

  private static void lay(PitchStretch stretch, int sign, double[] hertz) {
    for (int k = 0; k < stretch.midiPitches().size(); k++) {
      double from = stretch.startSeconds() + k * stretch.stepSeconds();
      int last = (int) Math.rint((from + stretch.stepSeconds()) / CURVE_STEP_SECONDS);
      int first = (int) Math.rint(from / CURVE_STEP_SECONDS);
      for (int i = first; i < Math.min(last, hertz.length); i++) {
        hertz[i] = sign * hertz(stretch.midiPitches().get(k));
      }
    }
  }

  private static double hertz(double midiPitch) {
    return 440 * Math.pow(2, (midiPitch - 69) / 12);
  }
}
