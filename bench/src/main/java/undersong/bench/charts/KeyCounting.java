package undersong.bench.charts;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import undersong.bench.data.Chart;
import undersong.bench.data.OpenData;
import undersong.bench.data.RockCorpusReader;
import undersong.bench.metrics.KeyLabel;

/**
 * Counts on charts that may be learned from how long tunes dwell on each degree of their key
 * (RS200, whose tunes are transcribed) and where a key goes that changes (all), and writes the
 * table that the program reads.
 */
public final class KeyCounting {
  private static final String[] THIRDS = {"major", "minor"};

  /** Share of all tones that every degree has before anything is counted. */
  private static final double UNSEEN_TONE = 0.005;

  /** Changes of each kind before anything is counted; common practice, no source. */
  private static final double ANY_CHANGE = 0.3;

  private static final double LIFT = 1.5;
  private static final double RELATIVE = 0.4;
  private static final double PARALLEL = 0.6;

  private final double[][] tones = new double[2][12];
  private final double[][][] changes = new double[2][2][12];

  private KeyCounting() {}

  /**
   * @param arguments the file to write, {@code key-counts.txt} among the program's resources
   */
  public static void main(String[] arguments) throws IOException {
    KeyCounting counting = new KeyCounting();
    Path corpus = OpenData.folder("rock-corpus-rs200");
    for (Chart chart : LearnedCharts.read().learned()) {
      counting.addChanges(chart);
      if (chart.id().startsWith("rs200-")) {
        counting.addTones(chart, corpus);
      }
    }
    Files.writeString(Path.of(arguments[0]), counting.table());
  }

  private void addChanges(Chart chart) {
    KeyLabel before = chart.bars().get(0).key();
    for (Chart.Bar bar : chart.bars()) {
      if (!bar.key().equals(before)) {
        int up = Math.floorMod(bar.key().tonic() - before.tonic(), 12);
        changes[third(before)][third(bar.key())][up]++;
        before = bar.key();
      }
    }
  }

  /** Each song counts the same; a note by the square root of its length, a bar at most. */
  private void addTones(Chart chart, Path corpus) throws IOException {
    int number = Integer.parseInt(chart.id().substring("rs200-".length()));
    String song = RockCorpusReader.songs(corpus).get(number - 1);
    Path tune = corpus.resolve("rs200_melody/" + song + "_dt.mel");
    if (!Files.exists(tune)) {
      tune = corpus.resolve("rs200_melody/" + song + "_tdc.mel");
    }
    if (!Files.exists(tune)) {
      return;
    }
    List<List<RockCorpusReader.Onset>> bars = RockCorpusReader.tune(tune);
    List<double[]> onsets = new ArrayList<>();
    for (int bar = 0; bar < Math.min(bars.size(), chart.bars().size()); bar++) {
      for (RockCorpusReader.Onset onset : bars.get(bar)) {
        onsets.add(new double[] {bar + onset.barShare(), onset.midiPitch()});
      }
    }
    double[][] here = new double[2][12];
    for (int i = 0; i < onsets.size(); i++) {
      double end = i + 1 < onsets.size() ? onsets.get(i + 1)[0] : Double.POSITIVE_INFINITY;
      KeyLabel key = chart.bars().get((int) onsets.get(i)[0]).key();
      int degree = Math.floorMod((int) onsets.get(i)[1] - key.tonic(), 12);
      here[third(key)][degree] += Math.sqrt(Math.min(1, end - onsets.get(i)[0]));
    }
    double sum = Arrays.stream(here).flatMapToDouble(Arrays::stream).sum();
    for (int third = 0; third < 2 && sum > 0; third++) {
      for (int degree = 0; degree < 12; degree++) {
        tones[third][degree] += here[third][degree] / sum;
      }
    }
  }

  private static int third(KeyLabel key) {
    return key.family().mode().equals("minor") ? 1 : 0;
  }

  private String table() {
    List<String> lines = new ArrayList<>();
    lines.add(
        "# Shares: how long tunes dwell on each degree above a major or minor tonic, and how far");
    lines.add(
        "# up the tonic goes where a key changes. Counted by KeyCounting of the bench on the"
            + " first");
    lines.add(
        "# 300 files by name of the McGill Billboard annotations (CC0; J. A. Burgoyne, J. Wild,");
    lines.add("# I. Fujinaga, ISMIR 2011) and the first 60 of RS200 (CC BY 4.0; T. de Clercq,");
    lines.add("# D. Temperley, 2011); before counting, lifts are commonest.");
    for (int third = 0; third < 2; third++) {
      double unseen = UNSEEN_TONE * Arrays.stream(tones[third]).sum();
      double[] padded = Arrays.stream(tones[third]).map(t -> t + unseen).toArray();
      lines.add(row("tone " + THIRDS[third], padded, Arrays.stream(padded).sum()));
    }
    for (int from = 0; from < 2; from++) {
      double[][] rows = new double[2][];
      for (int to = 0; to < 2; to++) {
        rows[to] = from == to ? sameThird() : otherThird(from);
      }
      double sum = Arrays.stream(rows).flatMapToDouble(Arrays::stream).sum();
      for (int to = 0; to < 2; to++) {
        lines.add(row("change %s to %s".formatted(THIRDS[from], THIRDS[to]), rows[to], sum));
      }
    }
    return String.join("\n", lines) + "\n";
  }

  /** Major to major and minor to minor, counted together: there are few. */
  private double[] sameThird() {
    double[] row = new double[12];
    for (int up = 1; up < 12; up++) {
      row[up] = (up <= 2 ? LIFT : ANY_CHANGE) + changes[0][0][up] + changes[1][1][up];
    }
    return row;
  }

  private double[] otherThird(int from) {
    int relative = from == 0 ? 9 : 3;
    double[] row = new double[12];
    for (int up = 0; up < 12; up++) {
      double before = up == 0 ? PARALLEL : up == relative ? RELATIVE : ANY_CHANGE;
      row[up] = before + changes[from][1 - from][up];
    }
    return row;
  }

  private static String row(String name, double[] values, double sum) {
    return Arrays.stream(values)
        .mapToObj(value -> String.format(Locale.ROOT, "%.4f", value / sum))
        .collect(Collectors.joining(" ", name + ": ", ""));
  }
}
