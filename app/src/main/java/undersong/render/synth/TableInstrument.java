package undersong.render.synth;

import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/**
 * A wavetable instrument: a bright and a dark table per pitch, crossfaded while the note rings, one
 * or more slightly detuned copies, and an envelope. Bass, plucked and struck strings, organ, pads
 * and the raw sound of a driven guitar differ in numbers only.
 */
final class TableInstrument implements Instrument {
  /** Amplitude of a harmonic. */
  interface Spectrum {
    double amplitude(int harmonic, double hertz);
  }

  /**
   * @param attackSeconds rise to full strength
   * @param decaySeconds time constant of the fall towards {@code sustain}
   * @param sustain what is left of the strength while the note is held, 0 to 1
   * @param releaseSeconds fall after the note is let go
   * @param darkenSeconds time constant of the crossfade from bright to dark
   * @param detuneCents one copy per entry
   * @param vibratoCents depth of a slow vibrato; 0 = none
   * @param pickNoise strength of the noise of plectrum or key at the beginning
   */
  record Settings(
      double attackSeconds,
      double decaySeconds,
      double sustain,
      double releaseSeconds,
      double darkenSeconds,
      List<Double> detuneCents,
      double vibratoCents,
      double pickNoise) {
    Settings {
      detuneCents = List.copyOf(detuneCents);
    }
  }

  private static final double HIGHEST_HARMONIC_HZ = 16_000;
  private static final int ENVELOPE_STEP = 32;

  private final Spectrum bright;
  private final Spectrum dark;
  private final Settings settings;
  private final Map<Integer, Wavetable[]> tables = new ConcurrentHashMap<>();

  TableInstrument(Spectrum bright, Spectrum dark, Settings settings) {
    this.bright = bright;
    this.dark = dark;
    this.settings = settings;
  }

  @Override
  public float[] play(ToneRequest tone) {
    int total = tone.lengthSamples() + Instrument.samples(settings.releaseSeconds);
    float[] out = new float[total];
    // Tables serve a third of a semitone each: the spectrum hardly moves within it.
    int place = (int) StrictMath.round(36 * StrictMath.log(tone.hertz()) / StrictMath.log(2));
    Wavetable[] pair = tables.computeIfAbsent(place, this::tablesAt);
    Noise noise = new Noise(tone.seed());
    List<Double> detune = settings.detuneCents;
    for (double cents : detune) {
      addCopy(tone, cents, pair, (noise.next() + 1) / 2, 1f / detune.size(), out);
    }
    addPick(tone, noise, out);
    return out;
  }

  private Wavetable[] tablesAt(int place) {
    double hertz = StrictMath.pow(2, place / 36.0);
    int harmonics = (int) Math.max(1, HIGHEST_HARMONIC_HZ / hertz);
    return new Wavetable[] {table(bright, harmonics, hertz), table(dark, harmonics, hertz)};
  }

  private static Wavetable table(Spectrum spectrum, int harmonics, double hertz) {
    double[] amplitudes = new double[harmonics];
    for (int n = 1; n <= harmonics; n++) {
      amplitudes[n - 1] = spectrum.amplitude(n, hertz);
    }
    return Wavetable.of(amplitudes);
  }

  private void addCopy(
      ToneRequest tone, double cents, Wavetable[] pair, double phase, float share, float[] out) {
    double step = tone.hertz() * StrictMath.pow(2, cents / 1200) / SAMPLE_RATE_HZ;
    double vibratoStep = 5.2 / SAMPLE_RATE_HZ;
    double vibratoDepth = step * settings.vibratoCents / 1200 * StrictMath.log(2);
    boolean vibrates = settings.vibratoCents > 0;
    Falling decay = new Falling(settings.decaySeconds, ENVELOPE_STEP);
    Falling darken = new Falling(settings.darkenSeconds, ENVELOPE_STEP);
    float level = 0;
    float next = (float) envelope(0, decay.next(), tone);
    float levelStep = 0;
    float brightness = 0;
    for (int i = 0; i < out.length; i++) {
      if (i % ENVELOPE_STEP == 0) {
        // The envelope runs straight between points so many samples apart.
        level = next;
        next = (float) envelope(i + ENVELOPE_STEP, decay.next(), tone);
        levelStep = (next - level) / ENVELOPE_STEP;
        brightness = (float) (tone.strength() * darken.next());
      }
      float value = brightness * pair[0].at(phase) + (1 - brightness) * pair[1].at(phase);
      out[i] += share * level * value;
      level += levelStep;
      phase += vibrates ? step + vibratoDepth * Wavetable.sine(i * vibratoStep) : step;
      if (phase >= 1) {
        phase -= 1;
      }
    }
  }

  private double envelope(int sample, double decayed, ToneRequest tone) {
    double t = (double) sample / SAMPLE_RATE_HZ;
    double rise =
        t >= settings.attackSeconds
            ? 1
            : 0.5 - 0.5 * StrictMath.cos(StrictMath.PI * t / settings.attackSeconds);
    double fall = settings.sustain + (1 - settings.sustain) * decayed;
    double let = 1;
    if (sample > tone.lengthSamples()) {
      double x =
          (double) (sample - tone.lengthSamples()) / SAMPLE_RATE_HZ / settings.releaseSeconds;
      let = x >= 1 ? 0 : 0.5 + 0.5 * StrictMath.cos(StrictMath.PI * x);
    }
    return tone.strength() * rise * fall * let;
  }

  private void addPick(ToneRequest tone, Noise noise, float[] out) {
    if (settings.pickNoise <= 0) {
      return;
    }
    int length = Math.min(out.length, Instrument.samples(0.012));
    float smooth = 0;
    for (int i = 0; i < length; i++) {
      smooth += 0.5f * (noise.next() - smooth);
      float fade = 1 - (float) i / length;
      out[i] += (float) (settings.pickNoise * tone.strength()) * fade * fade * smooth;
    }
  }
}
