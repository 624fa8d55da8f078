package undersong.estimate.key;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.stream.IntStream;

/**
 * How long tunes dwell on each degree of their key, and where a key goes that changes. Natural
 * logarithms. Keys are 0 to 11 (major third above the tonic) and 12 to 23 (minor).
 *
 * <p>Counted by {@code KeyCounting} of the bench on charts that may be used for learning.
 */
final class KeyCounts {
  private static final String TABLE = "key-counts.txt";
  private static final String[] THIRDS = {"major", "minor"};

  /** The score of a change that is none. */
  private static final float NEVER = -30;

  private static final KeyCounts STANDARD = read();

  private final double[][] tones;
  private final float[][] motion;

  private KeyCounts(Map<String, double[]> rows) {
    tones =
        Arrays.stream(THIRDS).map(third -> logs(rows, "tone " + third)).toArray(double[][]::new);
    motion = new float[TonicEvidence.KEYS][TonicEvidence.KEYS];
    for (int from = 0; from < motion.length; from++) {
      for (int to = 0; to < motion.length; to++) {
        double[] row = logs(rows, "change " + THIRDS[from / 12] + " to " + THIRDS[to / 12]);
        motion[from][to] = from == to ? NEVER : (float) row[Math.floorMod(to - from, 12)];
      }
    }
  }

  static KeyCounts standard() {
    return STANDARD;
  }

  /** How common a note of the tune is in a key. */
  double tone(int pitchClass, int key) {
    return tones[key / 12][Math.floorMod(pitchClass - key, 12)];
  }

  /**
   * {@code [old key][new key]}: how often a key that changes goes there.
   *
   * @param near what a change scores less between keys that share all notes but one, or all
   */
  float[][] motion(double near) {
    float[][] priced = Arrays.stream(motion).map(float[]::clone).toArray(float[][]::new);
    for (int from = 0; from < priced.length; from++) {
      for (int to = 0; to < priced.length; to++) {
        int apart = Math.floorMod(signature(to) - signature(from), 12);
        priced[from][to] += Math.min(apart, 12 - apart) <= 1 ? (float) Math.log(near) : 0;
      }
    }
    return priced;
  }

  /** Place of the key's signature on the circle of fifths. */
  private static int signature(int key) {
    return 7 * (key < 12 ? key : key + 3) % 12;
  }

  private static double[] logs(Map<String, double[]> rows, String name) {
    double[] row = rows.get(name);
    if (row == null || row.length != 12) {
      throw new IllegalStateException("%s has no row \"%s\" of 12.".formatted(TABLE, name));
    }
    return IntStream.range(0, 12).mapToDouble(i -> row[i] > 0 ? Math.log(row[i]) : NEVER).toArray();
  }

  private static KeyCounts read() {
    try (InputStream in = KeyCounts.class.getResourceAsStream(TABLE);
        BufferedReader lines =
            new BufferedReader(new InputStreamReader(in, StandardCharsets.US_ASCII))) {
      Map<String, double[]> rows = new HashMap<>();
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        if (!line.startsWith("#")) {
          int colon = line.indexOf(':');
          rows.put(
              line.substring(0, colon),
              Arrays.stream(line.substring(colon + 1).trim().split(" "))
                  .mapToDouble(Double::parseDouble)
                  .toArray());
        }
      }
      return new KeyCounts(rows);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
