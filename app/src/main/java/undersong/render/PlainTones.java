package undersong.render;

import java.util.List;
import java.util.Set;
import undersong.reading.Bass;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Facet;
import undersong.reading.Melody;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Tuning;
import undersong.reading.Voice;
import undersong.reading.Voices;
import undersong.render.synth.Effects;
import undersong.render.synth.Instrument;
import undersong.render.synth.Orchestra;
import undersong.render.synth.Sound;
import undersong.render.synth.ToneRequest;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.NoteName;
import undersong.time.Span;

/**
 * The check by ear: a reading played by soft plain tones, to be laid over the recording. Time 0 is
 * the start of the span, to the sample; pitches follow the recording's tuning.
 */
public final class PlainTones {
  private static final int CHORDS_FROM_MIDI = 55;
  private static final double BASS_DECIBELS = -9;
  private static final double CHORD_DECIBELS = -19;
  private static final double MELODY_DECIBELS = -13;
  private static final double VOICE_DECIBELS = -15;

  /** What can be played apart. */
  public enum Layer {
    BASS,
    CHORDS,
    MELODY,
    /** The sung lines besides the melody. */
    VOICES
  }

  private PlainTones() {}

  /**
   * Plays what the reading holds of the layers asked for; a facet not derived yet stays silent.
   *
   * @param span of the recording to play, at most an hour
   */
  public static StereoAudio render(Reading reading, Set<Layer> layers, Span span) {
    if (span.lengthSeconds() > 3600) {
      throw new IllegalArgumentException(
          "Plain tones over %.0f s are asked for; an hour is the limit. Ask for one excerpt at a time."
              .formatted(span.lengthSeconds()));
    }
    Sheet sheet = new Sheet(span, reading.find(Facet.TUNING).map(Tuning::cents).orElse(0.0));
    if (layers.contains(Layer.BASS)) {
      List<NoteEvent> notes = reading.find(Facet.BASS).map(Bass::notes).orElse(List.of());
      notes.forEach(note -> sheet.add(note, Sound.PLAIN_SOFT, BASS_DECIBELS));
    }
    if (layers.contains(Layer.CHORDS)) {
      List<ChordSpan> chords = reading.find(Facet.CHORDS).map(Chords::spans).orElse(List.of());
      chords.forEach(sheet::add);
    }
    if (layers.contains(Layer.MELODY)) {
      List<NoteEvent> notes = reading.find(Facet.MELODY).map(Melody::notes).orElse(List.of());
      notes.forEach(note -> sheet.add(note, Sound.PLAIN, MELODY_DECIBELS));
    }
    if (layers.contains(Layer.VOICES)) {
      List<Voice> voices = reading.find(Facet.VOICES).map(Voices::voices).orElse(List.of());
      voices.forEach(
          voice -> voice.events().forEach(n -> sheet.add(n, Sound.PLAIN, VOICE_DECIBELS)));
    }
    return StereoAudio.of(sheet.samples, sheet.samples);
  }

  /**
   * Plays one part by itself, to be laid over a recording.
   *
   * @param tuningCents of the recording
   */
  public static StereoAudio render(List<NoteEvent> notes, double tuningCents, Span span) {
    Sheet sheet = new Sheet(span, tuningCents);
    notes.forEach(note -> sheet.add(note, Sound.PLAIN, MELODY_DECIBELS));
    return StereoAudio.of(sheet.samples, sheet.samples);
  }

  /** Mono samples of one span, being filled. */
  private static final class Sheet {
    private final Orchestra orchestra = new Orchestra();
    private final Span span;
    private final double tuningCents;
    private final float[] samples;

    Sheet(Span span, double tuningCents) {
      this.span = span;
      this.tuningCents = tuningCents;
      this.samples = new float[Instrument.samples(span.lengthSeconds())];
    }

    void add(ChordSpan chord) {
      if (chord.symbol() instanceof Chord named) {
        for (NoteName tone : named.tones()) {
          int midi = CHORDS_FROM_MIDI + Math.floorMod(tone.pitchClass() - CHORDS_FROM_MIDI, 12);
          add(new NoteEvent(chord.span(), midi, 1), Sound.PLAIN, CHORD_DECIBELS);
        }
      }
    }

    void add(NoteEvent note, Sound sound, double decibels) {
      if (!note.span().overlaps(span)) {
        return;
      }
      int from = Instrument.samples(note.span().startSeconds() - span.startSeconds());
      int length = Math.max(1, Instrument.samples(note.span().lengthSeconds()));
      double hertz = 440 * StrictMath.pow(2, (note.midiPitch() - 69 + tuningCents / 100) / 12);
      float[] tone = orchestra.of(sound).play(new ToneRequest(hertz, length, 1, hertz, "", 1));
      float gain = (float) Effects.gain(decibels);
      for (int i = Math.max(0, -from); i < tone.length && from + i < samples.length; i++) {
        samples[from + i] += gain * tone[i];
      }
    }
  }
}
