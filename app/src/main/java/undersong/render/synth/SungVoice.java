package undersong.render.synth;

/**
 * A singing voice: harmonics of a gliding, vibrating pitch shaped by the formants of a vowel, some
 * breath, and the noise of a consonant before the vowel begins.
 *
 * <p>Source: the source-filter idea is Fant, "Acoustic Theory of Speech Production", 1960; formant
 * places after Peterson and Barney, "Control Methods Used in a Study of the Vowels", JASA 24, 1952
 * (women's averages, rounded, from memory). Departs: no filters run; each harmonic gets the
 * formants' gain directly, once per note.
 */
final class SungVoice implements Instrument {
  private static final int LEAD_IN = Instrument.samples(0.07);
  private static final double RELEASE_SECONDS = 0.07;
  private static final double HIGHEST_HARMONIC_HZ = 11_000;
  private static final double[] BANDWIDTHS_HZ = {90, 110, 160, 220, 300};

  private final double formantScale;
  private final double vibratoHz;

  /**
   * @param formantScale 1 = the tabled vowels, lower = a longer vocal tract
   */
  SungVoice(double formantScale, double vibratoHz) {
    this.formantScale = formantScale;
    this.vibratoHz = vibratoHz;
  }

  @Override
  public int leadInSamples() {
    return LEAD_IN;
  }

  @Override
  public float[] play(ToneRequest tone) {
    int release = Instrument.samples(RELEASE_SECONDS);
    float[] out = new float[LEAD_IN + tone.lengthSamples() + release];
    Noise noise = new Noise(tone.seed());
    addConsonant(Syllable.consonant(tone.syllable()), tone.strength(), noise, out);
    addVowel(tone, noise, release, out);
    return out;
  }

  private void addVowel(ToneRequest tone, Noise noise, int release, float[] out) {
    Wavetable table = table(Syllable.vowelFormantsHz(tone.syllable()), tone.hertz());
    boolean soft = Syllable.consonant(tone.syllable()) == Syllable.Consonant.SONORANT;
    double attack = Instrument.samples(soft ? 0.05 : 0.03);
    double ratio = StrictMath.log(tone.glideFromHertz() / tone.hertz()) / StrictMath.log(2);
    double vibratoOnset = Instrument.samples(0.22);
    double phase = 0;
    double vibratoPhase = (noise.next() + 1) / 2;
    double drift = 0;
    double step = 0;
    float breath = 0;
    float strength = (float) tone.strength();
    for (int i = 0; i < tone.lengthSamples() + release; i++) {
      if (i % 32 == 0) {
        drift += 0.02 * (noise.next() * 12 - drift);
        double depth = 24 * Math.max(0, Math.min(1, (i - vibratoOnset) / vibratoOnset));
        double glide = 1200 * ratio * StrictMath.exp(-i / (0.022 * SAMPLE_RATE_HZ));
        double cents = glide + drift + depth * Wavetable.sine(vibratoPhase);
        step = tone.hertz() * StrictMath.pow(2, cents / 1200) / SAMPLE_RATE_HZ;
        vibratoPhase += 32 * vibratoHz / SAMPLE_RATE_HZ;
      }
      float level = strength * (float) Math.min(1, i / attack);
      int after = i - tone.lengthSamples();
      if (after > 0) {
        float left = 1 - (float) after / release;
        level *= left * left;
      }
      breath += 0.35f * (noise.next() - breath);
      out[LEAD_IN + i] += level * (table.at(phase) + 0.012f * breath);
      phase += step;
      if (phase >= 1) {
        phase -= 1;
      }
    }
  }

  private Wavetable table(double[] formantsHz, double hertz) {
    int harmonics = (int) Math.max(1, HIGHEST_HARMONIC_HZ / hertz);
    double[] amplitudes = new double[harmonics];
    for (int n = 1; n <= harmonics; n++) {
      double f = n * hertz;
      double gain = 0;
      for (int k = 0; k < formantsHz.length; k++) {
        double distance = (f - formantsHz[k] * formantScale) / BANDWIDTHS_HZ[k];
        gain += StrictMath.pow(0.78, k) / StrictMath.sqrt(1 + distance * distance);
      }
      // The glottal source falls by about 12 dB an octave, the lips give 6 back.
      amplitudes[n - 1] = (gain + 0.03) * StrictMath.pow(n, -0.8);
    }
    return Wavetable.of(amplitudes);
  }

  private static void addConsonant(
      Syllable.Consonant consonant, double strength, Noise noise, float[] out) {
    double bright;
    int from;
    float level;
    switch (consonant) {
      case HISS -> {
        bright = 0.9;
        from = 0;
        level = 0.07f;
      }
      case BREATH -> {
        bright = 0.35;
        from = LEAD_IN / 4;
        level = 0.04f;
      }
      case STOP -> {
        bright = 0.6;
        from = LEAD_IN * 3 / 4;
        level = 0.11f;
      }
      default -> {
        return;
      }
    }
    float low = 0;
    for (int i = from; i < LEAD_IN + 200 && i < out.length; i++) {
      float white = noise.next();
      low += 0.3f * (white - low);
      float shaped = (float) (bright * (white - low) + (1 - bright) * low);
      float place = (float) (i - from) / (LEAD_IN + 200 - from);
      float swell = consonant == Syllable.Consonant.STOP ? 1 - place : 4 * place * (1 - place);
      out[i] += (float) strength * level * swell * shaped;
    }
  }
}
