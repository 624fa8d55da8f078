package undersong.feature;

import java.util.Arrays;
import undersong.kernel.Biquad;
import undersong.time.FrameClock;

/**
 * Measures loudness on a stream of samples.
 *
 * <p><b>In:</b> interleaved samples of any number of channels, in blocks of any size. <br>
 * <b>Out:</b> {@link Loudness}; momentary and short-term windows are centered on their frames, and
 * what lies outside the recording counts as silence. Gating blocks and the windows of the loudness
 * range lie wholly inside. <br>
 * <b>Silence:</b> {@link Loudness#SILENT_LUFS} throughout, range 0. <br>
 * <b>Cost:</b> O(samples); keeps one number per 10 ms.
 *
 * <p>Source: ITU-R BS.1770-4 (weighting, 400 ms blocks with 75 % overlap, gates at -70 LUFS and -10
 * LU); EBU Tech 3341 (momentary 400 ms, short-term 3 s, ungated); EBU Tech 3342 (range: 3 s windows
 * every 100 ms, gates at -70 LUFS and -20 LU, 95th minus 10th percentile).
 */
public final class LoudnessMeter {
  private static final double[] STEREO = {1, 1};
  private static final double[] ONE_CHANNEL_TWICE = {0.5, 0.5};

  private static final int STEPS_PER_SECOND = 100;
  private static final int MOMENTARY_STEPS = 40;
  private static final int SHORT_TERM_STEPS = 300;
  private static final int HOP_STEPS = 10;
  private static final double ABSOLUTE_GATE_LUFS = -70;

  private final FrameClock clock;
  private final int stepSamples;
  private final double[] weights;
  private final Biquad shelf;
  private final Biquad highPass;
  private final double[] memory; // four delays a channel
  private double[] power = new double[6000]; // weighted mean square of each 10 ms
  private int steps;
  private double sum;
  private int inStep;
  private long samples;

  /** For left and right, which weigh the same. */
  public static LoudnessMeter stereo(int sampleRateHz) {
    return new LoudnessMeter(sampleRateHz, STEREO);
  }

  /** For a recording of one channel that stands on both sides: it counts once, as in BS.1770. */
  public static LoudnessMeter monoOnBothSides(int sampleRateHz) {
    return new LoudnessMeter(sampleRateHz, ONE_CHANNEL_TWICE);
  }

  /**
   * @param sampleRateHz a multiple of 100
   * @param channelWeights one a channel: 1.0 for left, right and center, 1.41 for surrounds, 0 for
   *     low-frequency effects
   */
  public LoudnessMeter(int sampleRateHz, double[] channelWeights) {
    if (sampleRateHz <= 0 || sampleRateHz % STEPS_PER_SECOND != 0) {
      throw new IllegalArgumentException(
          "Sample rate %d Hz must be a positive multiple of %d."
              .formatted(sampleRateHz, STEPS_PER_SECOND));
    }
    this.stepSamples = sampleRateHz / STEPS_PER_SECOND;
    this.clock = new FrameClock(sampleRateHz, stepSamples * HOP_STEPS);
    this.weights = channelWeights.clone();
    this.shelf = KWeighting.shelf(sampleRateHz);
    this.highPass = KWeighting.highPass(sampleRateHz);
    this.memory = new double[4 * channelWeights.length];
  }

  public void accept(float[] interleaved, int frames) {
    int channels = weights.length;
    int at = 0;
    int left = frames;
    while (left > 0) {
      int run = Math.min(left, stepSamples - inStep);
      for (int channel = 0; channel < channels; channel++) {
        sum += weights[channel] * filteredSquares(interleaved, at + channel, run, channel);
      }
      at += run * channels;
      left -= run;
      inStep += run;
      if (inStep == stepSamples) {
        endStep();
      }
    }
    samples += frames;
  }

  /** Both sections, transposed direct form II; the sum of the squares of what comes out. */
  private double filteredSquares(float[] interleaved, int from, int count, int channel) {
    int stride = weights.length;
    int m = 4 * channel;
    double s1 = memory[m];
    double s2 = memory[m + 1];
    double h1 = memory[m + 2];
    double h2 = memory[m + 3];
    double squares = 0;
    for (int i = 0; i < count; i++) {
      double x = interleaved[from + i * stride];
      double y = shelf.b0() * x + s1;
      s1 = shelf.b1() * x - shelf.a1() * y + s2;
      s2 = shelf.b2() * x - shelf.a2() * y;
      double z = highPass.b0() * y + h1;
      h1 = highPass.b1() * y - highPass.a1() * z + h2;
      h2 = highPass.b2() * y - highPass.a2() * z;
      squares += z * z;
    }
    memory[m] = settled(s1);
    memory[m + 1] = settled(s2);
    memory[m + 2] = settled(h1);
    memory[m + 3] = settled(h2);
    return squares;
  }

  /** Numbers too small to be sound become zero before they grow slow to calculate with. */
  private static double settled(double value) {
    return Math.abs(value) < 1e-30 ? 0 : value;
  }

  private void endStep() {
    if (steps == power.length) {
      power = Arrays.copyOf(power, 2 * steps);
    }
    power[steps++] = sum / stepSamples;
    sum = 0;
    inStep = 0;
  }

  /** Reads the meter; what did not fill a last step of 10 ms is left out. */
  public Loudness read() {
    int frames = (int) ((samples + clock.hopSamples() - 1) / clock.hopSamples());
    return new Loudness(
        new FrameSeries(clock, curve(frames, MOMENTARY_STEPS)),
        new FrameSeries(clock, curve(frames, SHORT_TERM_STEPS)),
        integratedLufs(),
        rangeLu());
  }

  /** The loudest 400 ms, found to 10 ms. */
  double highestMomentaryLufs() {
    return highest(MOMENTARY_STEPS);
  }

  /** The loudest 3 s, found to 10 ms. */
  double highestShortTermLufs() {
    return highest(SHORT_TERM_STEPS);
  }

  private double highest(int window) {
    double highest = 0;
    for (int start = -window + 1; start < steps; start++) {
      highest = Math.max(highest, mean(start, window));
    }
    return lufs(highest);
  }

  private float[] curve(int frames, int window) {
    float[] curve = new float[frames];
    for (int frame = 0; frame < frames; frame++) {
      curve[frame] = (float) lufs(mean(frame * HOP_STEPS - window / 2, window));
    }
    return curve;
  }

  private double integratedLufs() {
    double[] blocks = blocks(MOMENTARY_STEPS);
    double relative = lufs(meanAbove(blocks, ABSOLUTE_GATE_LUFS)) - 10;
    return lufs(meanAbove(blocks, Math.max(relative, ABSOLUTE_GATE_LUFS)));
  }

  private double rangeLu() {
    double[] windows = blocks(SHORT_TERM_STEPS);
    double gate = Math.max(lufs(meanAbove(windows, ABSOLUTE_GATE_LUFS)) - 20, ABSOLUTE_GATE_LUFS);
    double[] passed =
        Arrays.stream(windows).map(LoudnessMeter::lufs).filter(l -> l > gate).toArray();
    if (passed.length == 0) {
      return 0;
    }
    Arrays.sort(passed);
    return passed[rank(0.95, passed.length)] - passed[rank(0.10, passed.length)];
  }

  private static int rank(double share, int count) {
    return (int) Math.round(share * (count - 1));
  }

  /** Windows wholly inside the recording, every 100 ms. */
  private double[] blocks(int window) {
    int count = steps < window ? 0 : (steps - window) / HOP_STEPS + 1;
    double[] blocks = new double[count];
    for (int i = 0; i < count; i++) {
      blocks[i] = mean(i * HOP_STEPS, window);
    }
    return blocks;
  }

  private double mean(int start, int window) {
    double total = 0;
    int end = Math.min(steps, start + window);
    for (int step = Math.max(0, start); step < end; step++) {
      total += power[step];
    }
    return total / window;
  }

  private static double meanAbove(double[] blocks, double gateLufs) {
    return Arrays.stream(blocks).filter(b -> lufs(b) > gateLufs).average().orElse(0);
  }

  private static double lufs(double power) {
    return power <= 0
        ? Loudness.SILENT_LUFS
        : Math.max(Loudness.SILENT_LUFS, -0.691 + 10 * Math.log10(power));
  }
}
