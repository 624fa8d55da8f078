package undersong.kernel;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import undersong.audio.AudioReader;
import undersong.feature.FeatureExtractor;
import undersong.feature.FrameMatrix;
import undersong.work.Cancellation;
import undersong.work.Progress;

/**
 * Guitar notes with a tape echo, recorded by others. Source: EGFxSet (Pedroza, Meza, Roman 2022),
 * whose table gives the delay as 120 bpm, half a second; the pedal imitates a tape, which does not
 * keep it to the millisecond. One second each, and the strings ring on under the echo.
 */
final class TapeEchoNotes {
  private TapeEchoNotes() {}

  /** The first samples of the low waveform; without open data the test is left out. */
  static float[] lowWave(String file, int samples) {
    String data = System.getenv("UNDERSONG_DATA");
    assumeTrue(data != null, "UNDERSONG_DATA is not set: the tape echo was not listened to");
    Path path = Path.of(data, "audio-egfxset-notes", file);
    FrameMatrix wave =
        new FeatureExtractor()
            .extract(
                AudioReader.probe(path, new Cancellation()), Progress.SILENT, new Cancellation())
            .image()
            .lowWave();
    float[] x = new float[samples];
    for (int n = 0; n < Math.min(x.length, wave.frames()); n++) {
      x[n] = wave.at(n, 0);
    }
    return x;
  }
}
