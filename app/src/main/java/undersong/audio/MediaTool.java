package undersong.audio;

import org.bytedeco.ffmpeg.ffmpeg;
import org.bytedeco.ffmpeg.ffprobe;
import org.bytedeco.javacpp.Loader;

/** The two executables that open media files, unpacked from the library's jar on first use. */
enum MediaTool {
  DECODER(ffmpeg.class),
  PROBER(ffprobe.class);

  private final Class<?> packaged;

  MediaTool(Class<?> packaged) {
    this.packaged = packaged;
  }

  /** Path of the executable. Unpacked once into the library's cache folder. */
  synchronized String path() {
    return Loader.load(packaged);
  }
}
