package undersong.bench.kernels;

import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import undersong.kernel.LocalLevel;
import undersong.kernel.RealFft;
import undersong.kernel.Windows;

/** Times the kernels that every second of music passes through. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Fork(1)
@Warmup(iterations = 2, time = 1)
@Measurement(iterations = 3, time = 1)
public class KernelSpeed {
  private final float[] noise = new float[16_384];
  private final float[] frame = new float[16_384];
  private final float[] power = new float[8_193];
  private final float[] window = Windows.periodicHann(16_384);
  private final RealFft fft = new RealFft(16_384);

  @Setup
  public void fill() {
    Random random = new Random(1);
    for (int i = 0; i < noise.length; i++) {
      noise[i] = (float) random.nextGaussian();
    }
  }

  /** One frame of the long spectrum. */
  @Benchmark
  public float[] longSpectrumFrame() {
    Windows.apply(window, noise, 0, frame);
    fft.power(frame, 1, power);
    return power;
  }

  /** Local level over five and a half minutes at 50 values a second. */
  @Benchmark
  public float[] localLevel() {
    float[] curve = noise.clone();
    LocalLevel.divide(curve, 100, 1, 0.1);
    return curve;
  }
}
