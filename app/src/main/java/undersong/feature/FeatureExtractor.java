package undersong.feature;

import java.util.Optional;
import java.util.function.IntFunction;
import undersong.audio.AudioReader;
import undersong.audio.Recording;
import undersong.audio.SampleStream;
import undersong.kernel.Halving;
import undersong.work.Cancellation;
import undersong.work.Progress;
import undersong.work.Trouble.UnreadableRecording;

/**
 * Measures a recording.
 *
 * <p><b>In:</b> a recording, streamed twice: first for levels and loudness, then, scaled to a
 * common level, for spectra. <br>
 * <b>Out:</b> {@link Features}, with nothing heard by a network yet. <br>
 * <b>Silence:</b> refused, as {@link AudioReader#probe} does. <br>
 * <b>Cost:</b> linear in the length; memory for the features only (about 30 MB per hour and
 * spectrum) and a few seconds of sound.
 */
public final class FeatureExtractor {
  /** Changes whenever a feature would come out differently. */
  public static final String VERSION = "4";

  private static final int WORKERS = 2;
  private static final double TARGET_RMS = 0.1;
  private static final float SILENCE_PEAK = (float) Math.pow(10, AudioReader.SILENCE_DBFS / 20);

  public Features extract(Recording recording, Progress progress, Cancellation cancellation) {
    return extract(recording, EarSpectraSink.NOBODY, progress, cancellation);
  }

  /**
   * @param ear given the spectra while they pass, from the calling thread
   */
  public Features extract(
      Recording recording, EarSpectraSink ear, Progress progress, Cancellation cancellation) {
    return extract(
        recording.contentHash(),
        AudioReader.samples(recording, cancellation),
        recording.durationSeconds(),
        recording.channels() == 1 ? LoudnessMeter::monoOnBothSides : LoudnessMeter::stereo,
        ear,
        progress,
        cancellation);
  }

  /**
   * The same for sound that lies in no file.
   *
   * @param durationSeconds expected; only progress is reckoned by it
   */
  public Features extract(
      String contentHash,
      SampleStream samples,
      double durationSeconds,
      EarSpectraSink ear,
      Progress progress,
      Cancellation cancellation) {
    return extract(
        contentHash, samples, durationSeconds, LoudnessMeter::stereo, ear, progress, cancellation);
  }

  private static Features extract(
      String contentHash,
      SampleStream samples,
      double durationSeconds,
      IntFunction<LoudnessMeter> loudness,
      EarSpectraSink ear,
      Progress progress,
      Cancellation cancellation) {
    long expected = Math.max(1, Math.round(durationSeconds * AudioReader.SAMPLE_RATE_HZ));
    LevelPass levels = new LevelPass(loudness.apply(AudioReader.SAMPLE_RATE_HZ));
    run(samples, levels, "measuring loudness", expected, progress, cancellation);
    levels.finish();
    if (levels.peak() < SILENCE_PEAK) {
      throw new UnreadableRecording(
          "The recording is silent: its loudest sample is %.1g of full scale and must reach %.1g. Maybe the wrong input was recorded."
              .formatted(levels.peak(), SILENCE_PEAK));
    }
    float scale = (float) (TARGET_RMS / (levels.rms() + 1e-5));
    SpectrumCollector collector =
        new SpectrumCollector((int) (levels.halvedSamples() / EarSpectraMaker.HOP_SAMPLES));
    EarSpectraSink both =
        chunk -> {
          cancellation.check();
          collector.accept(chunk);
          ear.accept(chunk);
        };
    try (SpectraPipeline pipeline = new SpectraPipeline(WORKERS, both)) {
      SpectraPass spectra = new SpectraPass(scale, pipeline);
      run(samples, spectra, "taking spectra", expected, progress, cancellation);
      spectra.finish();
    }
    return new Features(
        contentHash,
        (double) levels.samples() / AudioReader.SAMPLE_RATE_HZ,
        collector.onsets().toSeries(),
        collector.onsets().toBands(),
        Tempogram.of(collector.onsets().strengths()),
        collector.longSpectrum(),
        collector.shortSpectrum(),
        levels.loudness(),
        levels.meter().midLevelsDb(),
        levels.meter().sideLevelsDb(),
        levels.meter().centroidHz(),
        levels.meter().rollOffHz(),
        levels.meter().flatness(),
        levels.image(),
        Optional.empty());
  }

  private static void run(
      SampleStream samples,
      StereoPass pass,
      String stage,
      long expected,
      Progress progress,
      Cancellation cancellation) {
    long[] done = {0};
    progress.at(stage, 0);
    samples.to(
        (interleaved, frames) -> {
          cancellation.check();
          pass.accept(interleaved, frames);
          done[0] += frames;
          progress.at(stage, Math.min(1, (double) done[0] / expected));
        });
    progress.at(stage, 1);
  }

  /** Splits blocks into mid and side and halves mid's rate. */
  private abstract static class StereoPass {
    private final Halving halving = new Halving();
    private float[] mid = new float[0];
    private float[] side = new float[0];
    private float[] halved = new float[0];

    final void accept(float[] interleaved, int frames) {
      if (mid.length < frames) {
        mid = new float[frames];
        side = new float[frames];
        halved = new float[frames / 2 + 1];
      }
      for (int i = 0; i < frames; i++) {
        float left = interleaved[2 * i];
        float right = interleaved[2 * i + 1];
        mid[i] = (left + right) / 2;
        side[i] = (left - right) / 2;
      }
      full(interleaved, mid, side, frames);
      halved(halved, halving.push(mid, frames, halved));
    }

    void finish() {
      float[] rest = new float[128];
      halved(rest, halving.finish(rest));
    }

    abstract void full(float[] interleaved, float[] mid, float[] side, int frames);

    abstract void halved(float[] mid, int count);
  }

  private static final class LevelPass extends StereoPass {
    private final LoudnessMeter loudness;
    private final LevelMeter meter = new LevelMeter();
    private final StereoImageMeter image = new StereoImageMeter();
    private long samples;
    private long halvedSamples;
    private double squares;
    private float peak;

    LevelPass(LoudnessMeter loudness) {
      this.loudness = loudness;
    }

    @Override
    void full(float[] interleaved, float[] mid, float[] side, int frames) {
      loudness.accept(interleaved, frames);
      meter.accept(mid, side, frames);
      image.accept(interleaved, frames);
      for (int i = 0; i < 2 * frames; i++) {
        peak = Math.max(peak, Math.abs(interleaved[i]));
      }
      samples += frames;
    }

    @Override
    void halved(float[] mid, int count) {
      image.acceptHalved(mid, count);
      for (int i = 0; i < count; i++) {
        squares += mid[i] * (double) mid[i];
      }
      halvedSamples += count;
    }

    @Override
    void finish() {
      super.finish();
      meter.finish();
      image.finish();
    }

    Loudness loudness() {
      return loudness.read();
    }

    LevelMeter meter() {
      return meter;
    }

    StereoImage image() {
      return image.read();
    }

    long samples() {
      return samples;
    }

    long halvedSamples() {
      return halvedSamples;
    }

    float peak() {
      return peak;
    }

    double rms() {
      return Math.sqrt(squares / Math.max(1, halvedSamples));
    }
  }

  private static final class SpectraPass extends StereoPass {
    private final float scale;
    private final SpectraPipeline pipeline;

    SpectraPass(float scale, SpectraPipeline pipeline) {
      this.scale = scale;
      this.pipeline = pipeline;
    }

    @Override
    void full(float[] interleaved, float[] mid, float[] side, int frames) {}

    @Override
    void halved(float[] mid, int count) {
      for (int i = 0; i < count; i++) {
        mid[i] *= scale;
      }
      pipeline.push(mid, count);
    }

    @Override
    void finish() {
      super.finish();
      pipeline.finish();
    }
  }
}
