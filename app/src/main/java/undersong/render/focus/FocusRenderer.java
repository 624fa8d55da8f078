package undersong.render.focus;

import undersong.audio.AudioReader;
import undersong.audio.BlockSink;
import undersong.audio.SampleStream;
import undersong.kernel.OctaveUp;
import undersong.kernel.StereoMasking;

/**
 * Listens to one side of a recording: stereo samples in, stereo samples out, one for one.
 *
 * <p><b>Silence</b> stays silence. <b>Cost:</b> linear in the length; memory for a second of sound.
 * Levels come as they are; {@link LevelMatch} brings them to those of the recording.
 */
public final class FocusRenderer {
  private static final double LOW_BOTTOM_HZ = 35;
  private static final double LOW_TOP_HZ = 250;

  private FocusRenderer() {}

  /** Runs the recording through and gives what the focus leaves of it, in blocks of any size. */
  public static void render(SampleStream recording, Focus focus, BlockSink sink) {
    switch (focus) {
      case LOW_OCTAVE_UP -> low(recording, sink);
      case MIDDLE -> masked(recording, new MiddleMask(false), sink);
      case SIDES -> masked(recording, new MiddleMask(true), sink);
      case LEFT -> channel(recording, 0, sink);
      case RIGHT -> channel(recording, 1, sink);
      case HELD -> masked(recording, new HeldMask(false), sink);
      case STRUCK -> masked(recording, new HeldMask(true), sink);
    }
  }

  private static void masked(SampleStream recording, StereoMasking.Mask mask, BlockSink sink) {
    StereoMasking masking = new StereoMasking(mask, sink::accept);
    recording.to(masking::push);
    masking.finish();
  }

  private static void channel(SampleStream recording, int channel, BlockSink sink) {
    recording.to(
        (interleaved, frames) -> {
          float[] both = new float[2 * frames];
          for (int i = 0; i < both.length; i++) {
            both[i] = interleaved[i - i % 2 + channel];
          }
          sink.accept(both, frames);
        });
  }

  private static void low(SampleStream recording, BlockSink sink) {
    OctaveUp octave =
        new OctaveUp(
            LOW_BOTTOM_HZ / AudioReader.SAMPLE_RATE_HZ,
            LOW_TOP_HZ / AudioReader.SAMPLE_RATE_HZ,
            (samples, count) -> {
              float[] both = new float[2 * count];
              for (int i = 0; i < both.length; i++) {
                both[i] = samples[i / 2];
              }
              sink.accept(both, count);
            });
    recording.to(
        (interleaved, frames) -> {
          float[] middle = new float[frames];
          for (int i = 0; i < frames; i++) {
            middle[i] = (interleaved[2 * i] + interleaved[2 * i + 1]) / 2;
          }
          octave.push(middle, frames);
        });
    octave.finish();
  }
}
