package undersong.render.focus;

import java.io.BufferedInputStream;
import java.io.BufferedOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import undersong.audio.AudioReader;
import undersong.audio.BlockSink;
import undersong.audio.SampleStream;
import undersong.feature.LoudnessMeter;
import undersong.render.WavWriter;

/**
 * Writes a rendering at the level of the recording it belongs to: as loud (ITU-R BS.1770), and
 * neither louder nor with a higher peak, so that switching between the two startles nobody. What is
 * nearly silent is raised by {@link #MOST_GAIN_DB} at most.
 *
 * <p><b>Cost:</b> linear in the length; memory for a second of sound, and a passing file of 8 bytes
 * a sample beside the target.
 */
public final class LevelMatch {
  static final double MOST_GAIN_DB = 20;

  private LevelMatch() {}

  /** What makes sound out of a recording. */
  @FunctionalInterface
  public interface Rendering {
    void render(SampleStream recording, BlockSink sink);
  }

  /**
   * @param target WAV file to be written
   */
  public static void write(SampleStream recording, Rendering rendering, Path target)
      throws IOException {
    Path passing = target.resolveSibling(target.getFileName() + ".passing");
    Level original = new Level();
    Level rendered = new Level();
    try {
      try (DataOutputStream out =
          new DataOutputStream(new BufferedOutputStream(Files.newOutputStream(passing), 1 << 16))) {
        SampleStream metered =
            sink ->
                recording.to(
                    (interleaved, frames) -> {
                      original.accept(interleaved, frames);
                      sink.accept(interleaved, frames);
                    });
        rendering.render(
            metered,
            (interleaved, frames) -> {
              rendered.accept(interleaved, frames);
              keep(interleaved, frames, out);
            });
      } catch (UncheckedIOException full) {
        throw full.getCause();
      }
      copy(passing, target, (float) gain(original, rendered), rendered.frames);
    } finally {
      Files.deleteIfExists(passing);
    }
  }

  private static double gain(Level original, Level rendered) {
    double decibels = Math.min(MOST_GAIN_DB, original.lufs() - rendered.lufs());
    double ceiling = rendered.peak == 0 ? 0 : original.peak / rendered.peak;
    return Math.min(ceiling, Math.pow(10, decibels / 20));
  }

  private static void keep(float[] interleaved, int frames, DataOutputStream out) {
    try {
      for (int i = 0; i < 2 * frames; i++) {
        out.writeFloat(interleaved[i]);
      }
    } catch (IOException full) {
      throw new UncheckedIOException(full);
    }
  }

  private static void copy(Path passing, Path target, float gain, long frames) throws IOException {
    try (DataInputStream in =
            new DataInputStream(new BufferedInputStream(Files.newInputStream(passing), 1 << 16));
        WavWriter writer = new WavWriter(target, frames)) {
      for (long frame = 0; frame < frames; frame++) {
        float left = gain * in.readFloat();
        writer.write(left, gain * in.readFloat());
      }
    }
  }

  private static final class Level {
    private final LoudnessMeter meter = LoudnessMeter.stereo(AudioReader.SAMPLE_RATE_HZ);
    private double peak;
    private long frames;

    void accept(float[] interleaved, int count) {
      meter.accept(interleaved, count);
      for (int i = 0; i < 2 * count; i++) {
        peak = Math.max(peak, Math.abs(interleaved[i]));
      }
      frames += count;
    }

    double lufs() {
      return meter.read().integratedLufs();
    }
  }
}
