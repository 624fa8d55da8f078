package undersong.estimate;

import java.util.ArrayList;
import java.util.List;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.EarSpectraSink;
import undersong.feature.FeatureExtractor;
import undersong.feature.Features;
import undersong.feature.MadeUpHearing;
import undersong.reading.Bar;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.Lines;
import undersong.reading.Melody;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Section;
import undersong.reading.TimeSignature;
import undersong.reading.Tuning;
import undersong.time.BeatGrid;
import undersong.time.Span;
import undersong.work.Cancellation;
import undersong.work.Progress;

/**
 * A small scene that is really sounded and really measured; only what the trained ear would hear of
 * it is written down by hand. 120 bpm, 4/4. Test data for estimators of the production.
 */
public final class SoundingScene {
  private static final int RATE = 44_100;
  private final double durationSeconds;
  private final float[] left;
  private final float[] right;
  private final List<NoteEvent> lead = new ArrayList<>();

  /** The bin of the ear's bass in which it hears none. */
  private static final int NO_BASS = 45;

  private final List<NoteEvent> bass = new ArrayList<>();
  private final List<NoteEvent> heard = new ArrayList<>();
  private final List<double[]> strokes = new ArrayList<>();
  private final List<double[]> copies = new ArrayList<>();
  private final List<Section> sections = new ArrayList<>();

  public SoundingScene(double durationSeconds) {
    this.durationSeconds = durationSeconds;
    int size = (int) Math.round(durationSeconds * RATE);
    left = new float[size];
    right = new float[size];
  }

  /** Something that sounds. */
  public interface Wave {
    double at(double secondsSinceStart);
  }

  /**
   * Adds a sound at a place, by the constant-power law: gains are cosine and sine of one angle.
   *
   * @param place -1 left to 1 right
   */
  public SoundingScene add(double startSeconds, double endSeconds, double place, Wave wave) {
    double angle = (place + 1) * Math.PI / 4;
    for (int n = Math.max(0, (int) Math.round(startSeconds * RATE));
        n < Math.min(left.length, endSeconds * RATE);
        n++) {
      double value = wave.at(n / (double) RATE - startSeconds);
      left[n] += (float) (Math.cos(angle) * value);
      right[n] += (float) (Math.sin(angle) * value);
    }
    return this;
  }

  /** A tone with eight partials and soft edges; the ear hears the note. */
  public SoundingScene note(
      double startSeconds, double endSeconds, int midiPitch, double place, double amplitude) {
    heard.add(new NoteEvent(new Span(startSeconds, endSeconds), midiPitch, 0.9));
    return sound(startSeconds, endSeconds, midiPitch, place, amplitude);
  }

  /** The same, sung by the lead. */
  public SoundingScene lead(
      double startSeconds, double endSeconds, int midiPitch, double place, double amplitude) {
    lead.add(new NoteEvent(new Span(startSeconds, endSeconds), midiPitch, 0.9));
    return note(startSeconds, endSeconds, midiPitch, place, amplitude);
  }

  public SoundingScene bass(double startSeconds, double endSeconds, int midiPitch) {
    bass.add(new NoteEvent(new Span(startSeconds, endSeconds), midiPitch, 0.9));
    return note(startSeconds, endSeconds, midiPitch, 0, 0.15);
  }

  /** The same tone, but nobody tells the ear. */
  public SoundingScene sound(
      double startSeconds, double endSeconds, int midiPitch, double place, double amplitude) {
    double hertz = 440 * Math.pow(2, (midiPitch - 69) / 12.0);
    double length = endSeconds - startSeconds;
    return add(
        startSeconds,
        endSeconds,
        place,
        t -> {
          double edge = Math.min(1, Math.min(t, length - t) / 0.01);
          double sum = 0;
          for (int partial = 1; partial <= 8 && partial * hertz < 12_000; partial++) {
            sum += Math.sin(2 * Math.PI * partial * hertz * t + partial) / partial;
          }
          return amplitude * edge * sum;
        });
  }

  /**
   * A stroke.
   *
   * @param kind 0 kick, 1 snare, 2 cymbal
   */
  public SoundingScene stroke(double seconds, int kind, double place, double amplitude) {
    strokes.add(new double[] {seconds, kind});
    java.util.Random random = new java.util.Random((long) (seconds * 1000) + kind);
    double[] before = {0};
    return add(
        seconds,
        seconds + 0.3,
        place,
        t -> {
          double noise = random.nextDouble() * 2 - 1;
          double bright = noise - before[0];
          before[0] = noise;
          return switch (kind) {
            case 0 -> amplitude * Math.exp(-t / 0.08) * Math.sin(2 * Math.PI * 60 * t);
            case 1 -> amplitude * Math.exp(-t / 0.05) * noise;
            default -> amplitude * Math.exp(-t / 0.03) * bright;
          };
        });
  }

  /** The ear takes what sounds there for copies; it says so with a probability of 0.6. */
  public SoundingScene copies(double startSeconds, double endSeconds, double lagSeconds) {
    copies.add(new double[] {startSeconds, endSeconds, lagSeconds});
    return this;
  }

  /** A section of the form. */
  public SoundingScene section(double startSeconds, double endSeconds, String letter) {
    int first = (int) Math.round(startSeconds / 2) + 1;
    int last = (int) Math.round(endSeconds / 2);
    sections.add(new Section(new Span(startSeconds, endSeconds), first, last, letter, 1, 0, 0.9));
    return this;
  }

  public Features features() {
    float[] interleaved = new float[2 * left.length];
    for (int n = 0; n < left.length; n++) {
      interleaved[2 * n] = left[n];
      interleaved[2 * n + 1] = right[n];
    }
    return new FeatureExtractor()
        .extract(
            "scene",
            sink -> sink.accept(interleaved, left.length),
            durationSeconds,
            EarSpectraSink.NOBODY,
            Progress.SILENT,
            new Cancellation())
        .withHeard(ear());
  }

  private EarActivations ear() {
    MadeUpHearing hearing = new MadeUpHearing(durationSeconds);
    for (NoteEvent note : heard) {
      int bin = (int) note.midiPitch() - 21;
      double start = note.span().startSeconds();
      hearing.set(EarHead.NOTE_ONSET, bin, start, start + 0.025, 0.95);
      hearing.set(EarHead.NOTE_SUSTAIN, bin, start, note.span().endSeconds(), 0.95);
    }
    for (double[] stroke : strokes) {
      hearing.set(EarHead.DRUMS, (int) stroke[1], stroke[0], stroke[0] + 0.025, 0.95);
    }
    double silentFrom = 0;
    for (NoteEvent note : bass) {
      hearing.set(EarHead.BASS_PITCH, NO_BASS, silentFrom, note.span().startSeconds(), 0.95);
      silentFrom = note.span().endSeconds();
    }
    hearing.set(EarHead.BASS_PITCH, NO_BASS, silentFrom, durationSeconds, 0.95);
    for (double[] copy : copies) {
      int bin = (int) Math.round(copy[2] * EarHead.FRAMES_PER_SECOND) - 4;
      hearing.set(EarHead.ECHO, bin, copy[0], copy[1], 0.6);
    }
    return hearing.activations();
  }

  /** Tuning, beats, bars, form, bass and melody. */
  public Reading reading() {
    int bars = (int) (durationSeconds / 2);
    double[] beats = new double[4 * bars + 1];
    for (int beat = 0; beat < beats.length; beat++) {
      beats[beat] = beat / 2.0;
    }
    List<Bar> found = new ArrayList<>();
    for (int bar = 0; bar < bars; bar++) {
      found.add(
          new Bar(bar + 1, 4 * bar, 4, TimeSignature.FOUR_FOUR, new Span(2 * bar, 2 * bar + 2)));
    }
    return Reading.empty(durationSeconds)
        .with(Facet.TUNING, Derived.of(new Tuning(0, 1)))
        .with(Facet.BEATS, Derived.of(new Beats(BeatGrid.of(beats), 2, 1, 1, List.of())))
        .with(Facet.METER, Derived.of(new Meter(found, 1, List.of())))
        .with(Facet.FORM, Derived.of(new Form(sections)))
        .with(Facet.BASS, Derived.of(new Bass(bass)))
        .with(Facet.MELODY, Derived.of(new Melody(lead)))
        .with(Facet.LINES, Derived.of(Lines.NONE));
  }
}
