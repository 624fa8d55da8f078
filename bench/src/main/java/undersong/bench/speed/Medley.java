package undersong.bench.speed;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import undersong.render.DemoRenderer;
import undersong.render.DemoSong;
import undersong.render.DemoSongs;
import undersong.render.StereoAudio;
import undersong.render.WavFile;

/** The demo songs end to end, over and over: a recording as long as it is asked for. */
public final class Medley {
  private Medley() {}

  public static Path write(Path file, double seconds) throws IOException {
    int size = (int) (seconds * StereoAudio.SAMPLE_RATE_HZ);
    float[] left = new float[size];
    float[] right = new float[size];
    List<DemoSong> songs = DemoSongs.all();
    for (int filled = 0, next = 0; filled < size; next++) {
      StereoAudio audio = DemoRenderer.render(songs.get(next % songs.size()));
      int taken = Math.min(audio.size(), size - filled);
      System.arraycopy(audio.left(), 0, left, filled, taken);
      System.arraycopy(audio.right(), 0, right, filled, taken);
      filled += taken;
    }
    WavFile.write(StereoAudio.of(left, right), file);
    return file;
  }
}
