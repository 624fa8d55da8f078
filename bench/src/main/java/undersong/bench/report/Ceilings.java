package undersong.bench.report;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import undersong.bench.data.Chart;
import undersong.bench.data.Harvest;
import undersong.bench.data.OpenData;
import undersong.bench.data.RockCorpusReader;
import undersong.bench.data.SectionReader;
import undersong.bench.data.SoloVoiceReader;
import undersong.bench.metrics.ChordCode;
import undersong.bench.metrics.ChordMetrics;
import undersong.bench.metrics.FormMetrics;
import undersong.bench.metrics.NoteMetrics;
import undersong.bench.metrics.Statistics;
import undersong.bench.metrics.Timed;
import undersong.bench.peers.Heard;
import undersong.bench.peers.TrueNotes;
import undersong.bench.render.Charts;
import undersong.bench.render.Renderer;
import undersong.bench.render.Song;
import undersong.bench.render.SongList;
import undersong.bench.render.Sounding;
import undersong.feature.ear.ListeningModel;

/**
 * How far two humans agree, by the metrics that the program is measured with, and what its chord
 * decoder makes of the notes that were really played.
 */
public final class Ceilings {
  private Ceilings() {}

  /**
   * @param renderer of the songs for measuring; where what it needs is missing, that is noted
   */
  public static List<Row> measure(Bench bench, Supplier<Renderer> renderer) throws IOException {
    List<Row> rows = new ArrayList<>();
    rows.add(rockChords(bench, 1, 100));
    rows.add(rockChords(bench, 61, 100));
    rows.add(salami(bench));
    rows.add(vocadito());
    try {
      rows.add(playedNotes(renderer.get()));
    } catch (OpenData.Missing missing) {
      bench.note("Chords from the notes played are left out: " + missing.getMessage());
    }
    return rows;
  }

  private static Row playedNotes(Renderer renderer) throws IOException {
    Map<String, List<Double>> scores = new LinkedHashMap<>();
    Charts charts = new Charts();
    int songs = 0;
    try (ListeningModel model =
        ListeningModel.load()
            .orElseThrow(() -> new OpenData.Missing("The trained ear cannot be loaded here."))) {
      for (Song song : SongList.of("full")) {
        Chart chart = charts.find(song.chartId());
        Renderer.Rendering clean = renderer.render(song, chart).clean();
        Heard heard = TrueNotes.hear(clean.audio(), Sounding.of(song, chart), model);
        Scorer.score(clean.truth(), heard).entrySet().stream()
            .filter(e -> e.getKey().startsWith("chords.") || e.getKey().startsWith("open."))
            .forEach(e -> add(scores, e.getKey(), e.getValue()));
        songs++;
      }
    }
    String what = "chords decoded from the notes played, set full, clean (mean of %d)";
    Row means = row(what.formatted(songs), scores);
    return new Row(means.id(), means.copy(), "undersong", Map.of(), means.scores());
  }

  /** Bars of equal length stand for time: the two authors analyzed the same recordings. */
  private static Row rockChords(Bench bench, int from, int to) throws IOException {
    Path folder = OpenData.folder("rock-corpus-rs200");
    Map<String, Chart> first = charts(folder, RockCorpusReader.Annotator.TEMPERLEY);
    Map<String, Chart> second = charts(folder, RockCorpusReader.Annotator.DE_CLERCQ);
    Map<String, List<Double>> scores = new LinkedHashMap<>();
    int songs = 0;
    int otherBars = 0;
    for (int n = from; n <= to; n++) {
      String id = "rs200-%03d".formatted(n);
      Chart one = first.get(id);
      Chart other = second.get(id);
      if (one == null || other == null) {
        continue;
      }
      if (one.bars().size() != other.bars().size()) {
        otherBars++;
        continue;
      }
      songs++;
      List<Timed<ChordCode>> reference = spans(one);
      List<Timed<ChordCode>> estimated = spans(other);
      add(scores, "root", ChordMetrics.overlap(reference, estimated, ChordMetrics.Level.ROOT));
      add(scores, "majmin", ChordMetrics.overlap(reference, estimated, ChordMetrics.Level.MAJMIN));
      add(
          scores,
          "sevenths",
          ChordMetrics.overlap(reference, estimated, ChordMetrics.Level.SEVENTHS));
      add(scores, "invertedRecall", ChordMetrics.invertedRecall(reference, estimated));
    }
    bench.note(
        "RS200 %d-%d: %d songs compared; %d left out, counted in bars of another length by the two authors."
            .formatted(from, to, songs, otherBars));
    return row("chords, RS200 songs %d-%d (mean of %d)".formatted(from, to, songs), scores);
  }

  private static Map<String, Chart> charts(Path folder, RockCorpusReader.Annotator annotator) {
    Map<String, Chart> charts = new HashMap<>();
    RockCorpusReader.readAll(folder, annotator).read().forEach(c -> charts.put(c.id(), c));
    return charts;
  }

  private static List<Timed<ChordCode>> spans(Chart chart) {
    List<Timed<ChordCode>> spans = new ArrayList<>();
    for (int b = 0; b < chart.bars().size(); b++) {
      Chart.Bar bar = chart.bars().get(b);
      for (int c = 0; c < bar.changes().size(); c++) {
        double end = c + 1 < bar.changes().size() ? bar.changes().get(c + 1).beat() : bar.beats();
        spans.add(
            new Timed<>(
                b + bar.changes().get(c).beat() / bar.beats(),
                b + end / bar.beats(),
                bar.changes().get(c).chord()));
      }
    }
    return spans;
  }

  private static Row salami(Bench bench) {
    Harvest<SectionReader.TwoListeners> harvest =
        SectionReader.readSalami(OpenData.folder("salami"));
    harvest.refused().forEach(bench::note);
    Map<String, List<Double>> scores = new LinkedHashMap<>();
    for (SectionReader.TwoListeners song : harvest.read()) {
      for (boolean trimmed : new boolean[] {false, true}) {
        String suffix = trimmed ? " trimmed" : "";
        add(
            scores,
            "F 0.5 s" + suffix,
            FormMetrics.boundaries(song.first(), song.second(), 0.5, trimmed).f());
        add(
            scores,
            "F 3 s" + suffix,
            FormMetrics.boundaries(song.first(), song.second(), 3, trimmed).f());
      }
      add(scores, "pairwise F", FormMetrics.pairwise(song.first(), song.second()).f());
      add(scores, "entropy F", FormMetrics.entropies(song.first(), song.second()).f());
    }
    return row("sections, SALAMI (mean of %d)".formatted(harvest.read().size()), scores);
  }

  private static Row vocadito() {
    SoloVoiceReader.Solo solo =
        SoloVoiceReader.readVocadito(OpenData.folder("audio-vocadito")).read().get(0);
    Map<String, List<Double>> scores = new LinkedHashMap<>();
    for (NoteMetrics.Demand demand : NoteMetrics.Demand.values()) {
      add(
          scores,
          "notes F " + demand.name().toLowerCase(java.util.Locale.ROOT).replace('_', ' '),
          NoteMetrics.score(solo.notes().get(0), solo.notes().get(1), demand).f());
    }
    return row("sung notes, vocadito-1", scores);
  }

  private static void add(Map<String, List<Double>> scores, String metric, double value) {
    if (Double.isFinite(value)) {
      scores.computeIfAbsent(metric, m -> new ArrayList<>()).add(value);
    }
  }

  private static Row row(String what, Map<String, List<Double>> scores) {
    Map<String, Double> means = new LinkedHashMap<>();
    scores.forEach(
        (metric, values) ->
            means.put(
                metric,
                Statistics.mean(values.stream().mapToDouble(Double::doubleValue).toArray())));
    return new Row(what, "real", "two humans", Map.of(), means);
  }
}
