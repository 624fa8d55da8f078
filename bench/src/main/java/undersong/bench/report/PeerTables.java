package undersong.bench.report;

import java.util.ArrayList;
import java.util.List;
import undersong.bench.metrics.Statistics;

/** The program beside those who listened to the same recordings, and what it took copies for. */
final class PeerTables {
  private static final List<String> PEERS = List.of("classical", "aubio", "trivial", "ffmpeg");
  private static final List<String> COMPARED =
      List.of(
          "beats.f",
          "downbeats.f",
          "key.weighted",
          "chords.majmin",
          "bass.f",
          "melody.rawPitch",
          "form.f3Trimmed",
          "speed.realTimeFactor");
  private static final List<String> KINDS = List.of("delay", "again", "double", "unheard");

  private PeerTables() {}

  /** The program's mean over a peer's, on the songs that the peer heard. */
  static List<String> ratios(Run run) {
    List<String> lines = new ArrayList<>();
    lines.add("");
    lines.add("As ratios, the program over each peer (mean of clean / worn; for time, below 1 is");
    lines.add("faster):");
    lines.add("");
    lines.add("| against | %s |".formatted(String.join(" | ", COMPARED)));
    lines.add("|---|%s".formatted("---|".repeat(COMPARED.size())));
    for (String peer : PEERS) {
      List<String> cells =
          COMPARED.stream()
              .map(m -> ratio(run, peer, "clean", m) + " / " + ratio(run, peer, "worn", m))
              .toList();
      if (cells.stream().anyMatch(c -> !c.equals("- / -"))) {
        lines.add("| %s | %s |".formatted(peer, String.join(" | ", cells)));
      }
    }
    return lines;
  }

  private static String ratio(Run run, String peer, String copy, String metric) {
    double theirs = Statistics.mean(run.values(peer, copy, metric));
    return theirs == 0
        ? "-"
        : Page.number(Statistics.mean(run.values("undersong", copy, metric)) / theirs);
  }

  /** What each true kind of copy was told as. */
  static List<String> copies(Run run) {
    List<String> lines = new ArrayList<>();
    if (run.copies().isEmpty()) {
      return lines;
    }
    lines.add("");
    lines.add(
        "True echoes (delay), lines performed again and doubles, and what they were told as:");
    lines.add("");
    lines.add("| truth | %s |".formatted(String.join(" | ", KINDS)));
    lines.add("|---|%s".formatted("---|".repeat(KINDS.size())));
    run.copies()
        .forEach(
            (truth, told) ->
                lines.add(
                    "| %s | %s |"
                        .formatted(
                            truth,
                            String.join(
                                " | ",
                                KINDS.stream()
                                    .map(k -> told.getOrDefault(k, 0L).toString())
                                    .toList()))));
    return lines;
  }
}
