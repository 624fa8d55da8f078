package undersong.bench.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import undersong.bench.metrics.SungNote;

/**
 * A voice of our own: pulses with glide, late vibrato and jitter, shaped by vowel formants, with
 * consonants of noise at some onsets. It knows exactly what pitch it sings.
 *
 * <p>Formants: mean adult values after G. Peterson and H. Barney, JASA 24(2), 1952, from memory.
 */
final class FormantSinger implements Singer {
  private static final double[][] VOWELS = {
    {730, 1090, 2440}, {530, 1840, 2480}, {270, 2290, 3010}, {570, 840, 2410}, {300, 870, 2240}
  };
  private static final double[] FORMANT_GAINS = {1, 1, 0.7, 0.5};
  private static final double GLIDE_SECONDS = 0.05;
  private static final double VIBRATO_HZ = 5.6;

  private final Random random;
  private final double formantRatio;

  /**
   * @param formantRatio all formants against the mean adult's: above 1 a smaller singer
   */
  FormantSinger(Random random, double formantRatio) {
    this.random = random;
    this.formantRatio = formantRatio;
  }

  @Override
  public List<Double> sing(List<SungNote> notes, float[] voice) {
    double lengthSeconds = (double) voice.length / Wave.RATE_HZ;
    double[] hertz = new double[(int) (lengthSeconds / Truth.CURVE_HOP_SECONDS) + 1];
    double lastEnd = -1;
    double lastPitch = 0;
    for (SungNote note : notes) {
      boolean tied = note.startSeconds() - lastEnd < 0.08 && random.nextDouble() < 0.6;
      double[] vowel = VOWELS[random.nextInt(VOWELS.length)];
      boolean consonant = !tied && random.nextDouble() < 0.7;
      sing(voice, hertz, note, tied ? lastPitch : note.midiPitch() - 0.8, vowel, consonant);
      lastEnd = note.endSeconds();
      lastPitch = note.midiPitch();
    }
    List<Double> curve = new ArrayList<>();
    for (double h : hertz) {
      curve.add(h);
    }
    return curve;
  }

  private void sing(
      float[] voice,
      double[] hertz,
      SungNote note,
      double fromPitch,
      double[] vowel,
      boolean consonant) {
    int start = (int) (note.startSeconds() * Wave.RATE_HZ);
    int end = Math.min(voice.length, (int) (note.endSeconds() * Wave.RATE_HZ));
    if (end <= start) {
      return;
    }
    float[] source = new float[end - start];
    double depthCents = 15 + 25 * random.nextDouble();
    double off = 6 * random.nextGaussian();
    double phase = 0;
    for (int i = 0; i < source.length; i++) {
      double t = (double) i / Wave.RATE_HZ;
      double glide = Math.exp(-t / GLIDE_SECONDS * 2.5);
      double vibrato =
          depthCents
              * Math.min(1, Math.max(0, (t - 0.2) / 0.3))
              * Math.sin(2 * Math.PI * VIBRATO_HZ * t);
      double midi =
          note.midiPitch() + (fromPitch - note.midiPitch()) * glide + (vibrato + off) / 100;
      double frequency = 440 * Math.pow(2, (midi - 69) / 12);
      int frame = (int) Math.rint((start + i) / (Wave.RATE_HZ * Truth.CURVE_HOP_SECONDS));
      if (frame < hertz.length) {
        hertz[frame] = frequency;
      }
      double step = frequency / Wave.RATE_HZ;
      phase += step;
      phase -= Math.floor(phase);
      double saw = 2 * phase - 1 - smooth(phase, step);
      source[i] = (float) (saw + 0.06 * random.nextGaussian());
    }
    float[] shaped = shape(source, vowel);
    double strength = 0.1 * (1 + 0.25 * random.nextGaussian());
    for (int i = 0; i < shaped.length; i++) {
      double t = (double) i / Wave.RATE_HZ;
      double left = (double) (shaped.length - i) / Wave.RATE_HZ;
      double loud = Math.min(1, t / 0.03) * Math.min(1, left / 0.04);
      voice[start + i] += (float) (strength * loud * shaped[i]);
    }
    if (consonant) {
      consonant(voice, start);
    }
  }

  /** Rounds the edge of the sawtooth (polynomial band-limited step). */
  private static double smooth(double phase, double step) {
    if (phase < step) {
      double t = phase / step;
      return t + t - t * t - 1;
    }
    if (phase > 1 - step) {
      double t = (phase - 1) / step;
      return t * t + t + t + 1;
    }
    return 0;
  }

  /** Vowel formants and a fourth for brightness, every vowel brought to one loudness. */
  private float[] shape(float[] source, double[] vowel) {
    float[] sum = new float[source.length];
    for (int f = 0; f < vowel.length; f++) {
      resonate(source, sum, formantRatio * vowel[f], 90 + 40 * f, FORMANT_GAINS[f]);
    }
    resonate(source, sum, formantRatio * 3300, 300, FORMANT_GAINS[3]);
    double squares = 0;
    for (float v : sum) {
      squares += v * v;
    }
    float factor = (float) (1 / Math.sqrt(squares / sum.length + 1e-9));
    for (int i = 0; i < sum.length; i++) {
      sum[i] *= factor;
    }
    return sum;
  }

  private static void resonate(
      float[] x, float[] sum, double hertz, double bandwidthHz, double gain) {
    double r = Math.exp(-Math.PI * bandwidthHz / Wave.RATE_HZ);
    double a1 = 2 * r * Math.cos(2 * Math.PI * hertz / Wave.RATE_HZ);
    double a2 = -r * r;
    double y1 = 0;
    double y2 = 0;
    double b = gain * (1 - r) * 2;
    for (int i = 0; i < x.length; i++) {
      double y = b * x[i] + a1 * y1 + a2 * y2;
      y2 = y1;
      y1 = y;
      sum[i] += (float) y;
    }
  }

  private void consonant(float[] voice, int start) {
    int length = (int) ((0.03 + 0.05 * random.nextDouble()) * Wave.RATE_HZ);
    float[] noise = new float[length];
    for (int i = 0; i < length; i++) {
      noise[i] = (float) (0.1 * random.nextGaussian() * Math.sin(Math.PI * i / length));
    }
    Filters.highPass(noise, 2500 + 2500 * random.nextDouble());
    for (int i = 0; i < length; i++) {
      int at = start - length / 2 + i;
      if (at >= 0 && at < voice.length) {
        voice[at] += noise[i];
      }
    }
  }
}
