package undersong.bench.render;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import undersong.bench.data.BillboardReader;
import undersong.bench.data.Chart;
import undersong.bench.data.FolkTuneReader;
import undersong.bench.data.Harvest;
import undersong.bench.data.OpenData;
import undersong.bench.data.Pop909Reader;
import undersong.bench.data.RockCorpusReader;

/** Finds a chart by id, reading each data set once. */
public final class Charts {
  private final Map<String, Map<String, Chart>> sets = new HashMap<>();

  /**
   * The chart; throws {@link OpenData.Missing} where its data set is not there.
   *
   * @param id data set and number ("billboard-0006"), or a chart of our own ("own-waltz")
   */
  public Chart find(String id) throws IOException {
    String set = id.substring(0, id.indexOf('-'));
    if (set.equals("own")) {
      return own(id);
    }
    Map<String, Chart> charts = sets.get(set);
    if (charts == null) {
      charts = new HashMap<>();
      for (Chart chart : read(set).read()) {
        charts.put(chart.id(), chart);
      }
      sets.put(set, charts);
    }
    Chart chart = charts.get(id);
    if (chart == null) {
      throw new IllegalArgumentException("No chart \"%s\" could be read.".formatted(id));
    }
    return chart;
  }

  private static Harvest<Chart> read(String set) throws IOException {
    return switch (set) {
      case "billboard" -> BillboardReader.readAll(OpenData.folder("mcgill-billboard"));
      case "nottingham" -> FolkTuneReader.readAll(OpenData.folder("nottingham"));
      case "pop909" -> Pop909Reader.readAll(OpenData.folder("pop909"));
      case "rs200" ->
          RockCorpusReader.readAll(
              OpenData.folder("rock-corpus-rs200"), RockCorpusReader.Annotator.TEMPERLEY);
      default -> throw new IllegalArgumentException("No set of charts is called " + set + ".");
    };
  }

  private static Chart own(String id) throws IOException {
    try (InputStream in =
        Charts.class.getResourceAsStream("/undersong/bench/charts/" + id + ".txt")) {
      if (in == null) {
        throw new IllegalArgumentException("No chart of our own is called \"%s\".".formatted(id));
      }
      List<String> lines = new String(in.readAllBytes(), StandardCharsets.UTF_8).lines().toList();
      return BillboardReader.read(id, lines);
    }
  }
}
