package undersong.estimate;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.feature.FrameSeries;
import undersong.feature.Loudness;
import undersong.feature.StereoImage;
import undersong.kernel.HarmonicTemplates;
import undersong.time.FrameClock;

/**
 * Features of music that was never played: the spectra that harmonic tones would leave, built by
 * hand, with the blur of both windows. Test data for estimators.
 */
public final class SoundedFeatures {
  private static final int BINS = 264;
  private static final double SAMPLE_RATE_HZ = 22050;
  private static final FrameClock CLOCK = new FrameClock(22050, 882);

  private final double durationSeconds;
  private final double tuningCents;
  private final List<Tone> tones = new ArrayList<>();

  private record Tone(double startSeconds, double endSeconds, int midiPitch, double amplitude) {}

  public SoundedFeatures(double durationSeconds, double tuningCents) {
    this.durationSeconds = durationSeconds;
    this.tuningCents = tuningCents;
  }

  /** Adds tones that sound together. */
  public SoundedFeatures sound(double startSeconds, double endSeconds, int... midiPitches) {
    for (int pitch : midiPitches) {
      tones.add(new Tone(startSeconds, endSeconds, pitch, pitch < 48 ? 0.1 : 0.05));
    }
    return this;
  }

  public Features features() {
    FrameSeries quiet = new FrameSeries(new FrameClock(22050, 2205), new float[0]);
    FrameMatrix none = FrameMatrix.of(new FrameClock(22050, 2205), 7, new float[0]);
    int frames = (int) (durationSeconds * CLOCK.framesPerSecond());
    return new Features(
        "made up",
        durationSeconds,
        new FrameSeries(new FrameClock(22050, 441), new float[2 * frames]),
        FrameMatrix.of(new FrameClock(22050, 441), 3, new float[6 * frames]),
        FrameMatrix.of(new FrameClock(22050, 11025), 96, new float[0]),
        spectrum(16384, frames),
        spectrum(4096, frames),
        new Loudness(quiet, quiet, Loudness.SILENT_LUFS, 0),
        none,
        none,
        quiet,
        quiet,
        quiet,
        StereoImage.NOTHING,
        Optional.empty());
  }

  private FrameMatrix spectrum(int window, int frames) {
    double[] centersHz = new double[BINS];
    for (int b = 0; b < BINS; b++) {
      centersHz[b] = 27.5 * Math.pow(2, (b - 1) / 36.0);
    }
    float[] magnitudes = new float[frames * BINS];
    double halfWindow = window / SAMPLE_RATE_HZ / 2;
    for (Tone tone : tones) {
      double hertz = 440 * Math.pow(2, (tone.midiPitch() - 69 + tuningCents / 100) / 12);
      float[] shape =
          HarmonicTemplates.magnitudes(
              new double[] {hertz}, 0.6, 12, centersHz, window, SAMPLE_RATE_HZ)[0];
      for (int t = 0; t < frames; t++) {
        double covered = covered(t * 0.04, halfWindow, tone.startSeconds(), tone.endSeconds());
        for (int b = 0; b < BINS && covered > 0; b++) {
          magnitudes[t * BINS + b] += (float) (tone.amplitude() * covered * shape[b]);
        }
      }
    }
    for (int i = 0; i < magnitudes.length; i++) {
      magnitudes[i] = (float) Math.log1p(1000 * magnitudes[i]);
    }
    return FrameMatrix.of(CLOCK, BINS, magnitudes);
  }

  /** Share of a Hann window around a time that lies within [start, end). */
  private static double covered(double middle, double half, double start, double end) {
    return below(middle, half, end) - below(middle, half, start);
  }

  private static double below(double middle, double half, double edge) {
    double x = Math.max(-1, Math.min(1, (edge - middle) / half));
    return 0.5 + 0.5 * x + Math.sin(Math.PI * x) / (2 * Math.PI);
  }
}
