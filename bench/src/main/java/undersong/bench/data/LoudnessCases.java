package undersong.bench.data;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Stereo tones of EBU Tech 3341 and 3342 with the integrated loudness or loudness range that a
 * meter must read; cases of more channels, of real programmes or of single windows are left out.
 */
public final class LoudnessCases {
  private static final Pattern TONE =
      Pattern.compile(
          "(?:stereo sine 1000 Hz, )?(-[0-9.]+(?:/-[0-9.]+)*) dBFS(?: peak)?, "
              + "([0-9.]+(?:/[0-9.]+)*) s( each)?");
  private static final double TONE_HZ = 1000;

  private LoudnessCases() {}

  /**
   * One signal: a sine at one level after another, alike in both channels.
   *
   * @param levelsDb peak of the sine, dBFS
   * @param lengths how long each level lasts, seconds
   * @param range whether the loudness range is expected; else the integrated loudness
   */
  public record Tone(
      String id, List<Double> levelsDb, List<Double> lengths, boolean range, double expected) {
    public double seconds() {
      return lengths.stream().mapToDouble(Double::doubleValue).sum();
    }

    /** One channel. */
    public float[] samples(int rateHz) {
      float[] samples = new float[(int) Math.round(seconds() * rateHz)];
      int at = 0;
      for (int i = 0; i < levelsDb.size(); i++) {
        double amplitude = Math.pow(10, levelsDb.get(i) / 20);
        int end = Math.min(samples.length, at + (int) Math.round(lengths.get(i) * rateHz));
        for (; at < end; at++) {
          samples[at] = (float) (amplitude * Math.sin(2 * Math.PI * TONE_HZ * at / rateHz));
        }
      }
      return samples;
    }
  }

  public static List<Tone> read(Path folder) throws IOException {
    List<Tone> tones = new ArrayList<>();
    for (String line : Files.readAllLines(folder.resolve("ebu-cases.tsv"))) {
      String[] cells = line.split("\t", -1);
      Matcher tone = TONE.matcher(cells[1]);
      boolean range = cells[2].equals("LRA");
      if (tone.matches() && (range || cells[2].endsWith("I"))) {
        List<Double> levels = numbers(tone.group(1));
        List<Double> lengths = numbers(tone.group(2));
        if (tone.group(3) != null) {
          lengths = levels.stream().map(l -> numbers(tone.group(2)).get(0)).toList();
        }
        tones.add(new Tone(cells[0], levels, lengths, range, Double.parseDouble(cells[3])));
      }
    }
    return tones;
  }

  private static List<Double> numbers(String text) {
    return Arrays.stream(text.split("/", -1)).map(Double::valueOf).toList();
  }
}
