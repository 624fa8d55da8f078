package undersong.bench.peers;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import undersong.bench.render.Tool;
import undersong.bench.render.Truth;

/** Loudness by FFmpeg's filter {@code ebur128}; what others read is compared with it. */
public final class FfmpegMeter implements Listener {
  public static final String NAME = "ffmpeg";

  private static final Pattern INTEGRATED = Pattern.compile("I:\\s+(-?[0-9.]+) LUFS");
  private static final Pattern RANGE = Pattern.compile("LRA:\\s+(-?[0-9.]+) LU\\b");

  @Override
  public String name() {
    return NAME;
  }

  @Override
  public Heard hear(Path audio, Truth truth) throws IOException {
    long before = System.nanoTime();
    String printed =
        Tool.run(
            "ffmpeg",
            "-hide_banner",
            "-nostats",
            "-i",
            audio.toString(),
            "-af",
            "ebur128=framelog=verbose",
            "-f",
            "null",
            "-");
    double seconds = (System.nanoTime() - before) / 1e9;
    String summary = printed.substring(Math.max(0, printed.lastIndexOf("Summary:")));
    return Heard.NOTHING
        .withLoudness(new Heard.Loudness(number(INTEGRATED, summary), number(RANGE, summary)))
        .withCosts(Map.of("speed.realTimeFactor", seconds / truth.durationSeconds()));
  }

  private static double number(Pattern pattern, String summary) throws IOException {
    Matcher found = pattern.matcher(summary);
    if (!found.find()) {
      throw new IOException("FFmpeg printed no loudness summary: " + summary.strip());
    }
    return Double.parseDouble(found.group(1));
  }
}
