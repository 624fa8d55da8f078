package undersong.estimate.key;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import undersong.theory.ChordQuality;
import undersong.theory.ChordShares;
import undersong.theory.ChordSymbol;

/**
 * What hand-made charts say about a tonic: how common each chord is above it, each step from chord
 * to chord, and what stands where a section begins and at its every eighth bar; and what each of
 * these is worth. Natural logarithms. Keys are 0 to 11 (major third above the tonic) and 12 to 23
 * (minor). Chord kinds are those of {@link ChordShares}.
 *
 * <p>Counted and fitted by {@code training/keys.py} on charts that may be used for learning.
 */
final class ChartEvidence {
  /** Where a chord may stand. */
  enum Place {
    SECTION("section", 2),
    EIGHTH_BAR("eighth-bar", 3);

    private final String name;
    private final int weight;

    Place(String name, int weight) {
      this.name = name;
      this.weight = weight;
    }
  }

  private static final String TABLE = "chart-evidence.txt";
  private static final int FAMILIES = 4;

  /** A chord without a third, which says nothing of the tonic's. */
  private static final int OPEN = 3;

  private static final int WEIGHTS = 6;
  private static final ChartEvidence STANDARD = read();

  private final double[] weights;
  private final double[][][] chords = new double[2][12][];
  private final double[][][] steps = new double[2][12 * FAMILIES][];
  private final List<Map<Place, double[]>> places =
      List.of(new EnumMap<>(Place.class), new EnumMap<>(Place.class));

  private ChartEvidence(double[] weights, Map<String, double[]> rows) {
    this.weights = weights;
    for (int third = 0; third < 2; third++) {
      String name = third == 0 ? "major" : "minor";
      for (int root = 0; root < 12; root++) {
        chords[third][root] = row(rows, "chord %s %d".formatted(name, root));
        for (int family = 0; family < FAMILIES; family++) {
          steps[third][FAMILIES * root + family] =
              row(rows, "step %s %d %d".formatted(name, root, family));
        }
      }
      for (Place place : Place.values()) {
        places.get(third).put(place, row(rows, "place %s %s".formatted(name, place.name)));
      }
    }
  }

  static ChartEvidence standard() {
    return STANDARD;
  }

  /** What one bar of a chord is worth: how common it is in the key. */
  double chord(ChordSymbol.Chord chord, int key) {
    return weights[0] * chords[key / 12][above(chord, key)][ChordShares.counted(chord.quality())];
  }

  /** What the step from one chord to the next is worth beyond the chords themselves. */
  double step(ChordSymbol.Chord from, ChordSymbol.Chord to, int key) {
    return weights[1] * steps[key / 12][cell(from, key)][cell(to, key)];
  }

  /** What it is worth that the chord stands at a place. */
  double place(Place place, ChordSymbol.Chord chord, int key) {
    double[] row = places.get(key / 12).get(place);
    return row == null ? 0 : weights[place.weight] * row[cell(chord, key)];
  }

  /** What one bar of the tonic chord is worth beyond its being common. */
  double held(ChordSymbol.Chord chord, int key) {
    int family = family(chord.quality());
    boolean fits = family == OPEN || (family > 0) == (key >= 12);
    return above(chord, key) == 0 && fits ? weights[4] : 0;
  }

  /** What a minor tonic is worth before anything is heard. */
  double minor() {
    return weights[5];
  }

  private static int above(ChordSymbol.Chord chord, int key) {
    return Math.floorMod(chord.root().pitchClass() - key, 12);
  }

  private static int cell(ChordSymbol.Chord chord, int key) {
    return FAMILIES * above(chord, key) + family(chord.quality());
  }

  private static int family(ChordQuality quality) {
    if (quality.hasNoThird()) {
      return OPEN;
    }
    if (!quality.hasMinorThird()) {
      return 0;
    }
    return quality.contains(6) ? 2 : 1;
  }

  private static double[] row(Map<String, double[]> rows, String name) {
    double[] row = rows.get(name);
    if (row == null) {
      throw new IllegalStateException("%s has no row \"%s\".".formatted(TABLE, name));
    }
    return row;
  }

  private static ChartEvidence read() {
    try (InputStream in = ChartEvidence.class.getResourceAsStream(TABLE);
        BufferedReader lines =
            new BufferedReader(new InputStreamReader(in, StandardCharsets.US_ASCII))) {
      double[] weights = new double[0];
      Map<String, double[]> rows = new HashMap<>();
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        if (line.startsWith("weights ")) {
          weights = numbers(line.substring("weights ".length()), 1);
        } else if (!line.startsWith("#")) {
          int colon = line.indexOf(':');
          rows.put(line.substring(0, colon), numbers(line.substring(colon + 1), 1000));
        }
      }
      if (weights.length != WEIGHTS) {
        throw new IllegalStateException(
            "%s holds %d weights, %d are used.".formatted(TABLE, weights.length, WEIGHTS));
      }
      return new ChartEvidence(weights, rows);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static double[] numbers(String text, double unit) {
    return Arrays.stream(text.trim().split(" "))
        .mapToDouble(number -> Double.parseDouble(number) / unit)
        .toArray();
  }
}
