package undersong.render.synth;

/** Struck and swept sounds without pitch: each a few lines of noise and falling sines. */
final class Drums {
  private Drums() {}

  static float[] kick(ToneRequest tone) {
    float[] out = new float[Instrument.samples(0.35)];
    double phase = 0;
    Falling fall1 = new Falling(0.022);
    Falling fall2 = new Falling(0.11);
    Falling fall3 = new Falling(0.0025);
    for (int i = 0; i < out.length; i++) {
      double hertz = 48 + 110 * fall1.next();
      phase += hertz / Instrument.SAMPLE_RATE_HZ;
      double body = Wavetable.sine(phase) * fall2.next();
      double click = Wavetable.sine(i * 2400.0 / 44_100) * fall3.next();
      out[i] = (float) (tone.strength() * (0.75 * body + 0.22 * click) * tail(i, out.length));
    }
    return out;
  }

  static float[] snare(ToneRequest tone) {
    float[] out = new float[Instrument.samples(0.28)];
    Noise noise = new Noise(tone.seed());
    float low = 0;
    Falling fall1 = new Falling(0.062);
    Falling fall2 = new Falling(0.04);
    for (int i = 0; i < out.length; i++) {
      double t = seconds(i);
      float white = noise.next();
      low += 0.22f * (white - low);
      double wires = (white - 0.8 * low) * fall1.next();
      double skin = (Wavetable.sine(188 * t) + 0.5 * Wavetable.sine(331 * t)) * fall2.next();
      out[i] = (float) (tone.strength() * (0.3 * wires + 0.3 * skin) * tail(i, out.length));
    }
    return out;
  }

  /** A brush or a rim: a snare without skin. */
  static float[] brush(ToneRequest tone) {
    float[] out = new float[Instrument.samples(0.16)];
    Noise noise = new Noise(tone.seed());
    float low = 0;
    Falling fall1 = new Falling(0.038);
    for (int i = 0; i < out.length; i++) {
      double t = seconds(i);
      float white = noise.next();
      low += 0.35f * (white - low);
      double rise = Math.min(1, t / 0.004);
      out[i] =
          (float) (tone.strength() * 0.3 * rise * (white - low) * fall1.next())
              * tail(i, out.length);
    }
    return out;
  }

  static float[] snap(ToneRequest tone) {
    float[] out = new float[Instrument.samples(0.12)];
    Noise noise = new Noise(tone.seed());
    StateVariableFilter band = new StateVariableFilter(1900, 700);
    Falling fall1 = new Falling(0.02);
    for (int i = 0; i < out.length; i++) {
      band.step(noise.next());
      out[i] = (float) (tone.strength() * 1.6 * band.band() * fall1.next()) * tail(i, out.length);
    }
    return out;
  }

  static float[] hat(ToneRequest tone, double decaySeconds) {
    float[] out = new float[Instrument.samples(decaySeconds * 6)];
    Noise noise = new Noise(tone.seed());
    Falling fall = new Falling(decaySeconds);
    float one = 0;
    float two = 0;
    for (int i = 0; i < out.length; i++) {
      float white = noise.next();
      one += 0.55f * (white - one);
      two += 0.55f * (white - one - two);
      out[i] =
          (float) (tone.strength() * 0.26 * (white - one - two))
              * (float) fall.next()
              * tail(i, out.length);
    }
    return out;
  }

  static float[] cymbal(ToneRequest tone) {
    return hat(tone, 0.45);
  }

  static float[] tom(ToneRequest tone) {
    float[] out = new float[Instrument.samples(0.4)];
    double phase = 0;
    Falling fall1 = new Falling(0.03);
    Falling fall2 = new Falling(0.12);
    for (int i = 0; i < out.length; i++) {
      phase += (95 + 45 * fall1.next()) / Instrument.SAMPLE_RATE_HZ;
      out[i] =
          (float) (tone.strength() * 0.6 * Wavetable.sine(phase) * fall2.next())
              * tail(i, out.length);
    }
    return out;
  }

  /** Noise whose color climbs over the whole length, gone when it ends. */
  static float[] riser(ToneRequest tone) {
    float[] out = new float[tone.lengthSamples()];
    Noise noise = new Noise(tone.seed());
    StateVariableFilter band = new StateVariableFilter(300, 150);
    for (int i = 0; i < out.length; i++) {
      double x = (double) i / out.length;
      if (i % 64 == 0) {
        double hertz = 300 * StrictMath.pow(2, 5 * x);
        band.tune(hertz, 0.5 * hertz);
      }
      band.step(noise.next());
      out[i] =
          (float) (tone.strength() * 0.9 * StrictMath.pow(x, 1.5) * band.band())
              * tail(i, out.length);
    }
    return out;
  }

  /** A cymbal played backwards: it grows until the note ends. */
  static float[] swell(ToneRequest tone) {
    float[] out = new float[tone.lengthSamples()];
    Noise noise = new Noise(tone.seed());
    float one = 0;
    for (int i = 0; i < out.length; i++) {
      double left = seconds(out.length - i);
      float white = noise.next();
      one += 0.4f * (white - one);
      out[i] =
          (float) (tone.strength() * 0.3 * (white - one) * StrictMath.exp(-left / 0.5))
              * tail(i, out.length);
    }
    return out;
  }

  /** Takes the last three milliseconds to zero, so that nothing clicks. */
  private static float tail(int i, int length) {
    return Math.min(1f, (length - 1 - i) / 132f);
  }

  private static double seconds(int samples) {
    return (double) samples / Instrument.SAMPLE_RATE_HZ;
  }
}
