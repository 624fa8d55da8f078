package undersong.bench.report;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import undersong.bench.metrics.Calibration;

/** Pictures of a run as SVG: reliability, chord qualities, and how the songs are spread. */
final class Pictures {
  private static final int CELL = 44;

  private Pictures() {}

  static void write(String set, Run run, Path folder) throws IOException {
    Files.createDirectories(folder);
    if (!run.calibration().isEmpty()) {
      Files.writeString(folder.resolve(set + "-reliability.svg"), reliability(run));
    }
    if (!run.confusion().isEmpty()) {
      Files.writeString(folder.resolve(set + "-qualities.svg"), qualities(run.confusion()));
      Files.writeString(folder.resolve(set + "-songs.svg"), songs(run));
    }
  }

  private static String svg(int width, int height, String content) {
    return """
        <svg xmlns="http://www.w3.org/2000/svg" width="%d" height="%d" font-family="sans-serif" font-size="11">
        <rect width="100%%" height="100%%" fill="white"/>
        %s</svg>
        """
        .formatted(width, height, content);
  }

  private static String text(double x, double y, String anchor, String words) {
    return String.format(
        Locale.ROOT,
        "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"%s\">%s</text>%n",
        x,
        y,
        anchor,
        words.replace("&", "&amp;").replace("<", "&lt;"));
  }

  /** One small square per facet: stated across, observed up; on the diagonal is honest. */
  private static String reliability(Run run) {
    StringBuilder content = new StringBuilder();
    int i = 0;
    for (Map.Entry<String, Calibration> facet : run.calibration().entrySet()) {
      double left = 20 + 150 * (i % 5);
      double top = 30 + 160 * (i / 5);
      content.append(text(left, top - 6, "start", facet.getKey()));
      content.append(
          String.format(
              Locale.ROOT,
              "<rect x=\"%.1f\" y=\"%.1f\" width=\"120\" height=\"120\" fill=\"none\" stroke=\"#999\"/>%n"
                  + "<line x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\" stroke=\"#bbb\"/>%n",
              left,
              top,
              left,
              top + 120,
              left + 120,
              top));
      for (Calibration.Bin bin : facet.getValue().bins()) {
        content.append(
            String.format(
                Locale.ROOT,
                "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"4\" fill=\"#235\"/>%n",
                left + 120 * bin.stated(),
                top + 120 * (1 - bin.observed())));
      }
      i++;
    }
    return svg(780, 40 + 160 * ((i + 4) / 5), content.toString());
  }

  /** True qualities down, heard qualities across, darker = a larger share of the row. */
  private static String qualities(Map<String, Map<String, Double>> confusion) {
    TreeSet<String> heard = new TreeSet<>();
    confusion.values().forEach(row -> heard.addAll(row.keySet()));
    List<String> columns = List.copyOf(heard);
    List<String> rows = List.copyOf(confusion.keySet());
    StringBuilder content = new StringBuilder();
    for (int c = 0; c < columns.size(); c++) {
      content.append(text(90 + CELL * (c + 0.5), 20, "middle", columns.get(c)));
    }
    for (int r = 0; r < rows.size(); r++) {
      Map<String, Double> row = confusion.get(rows.get(r));
      double seconds = row.values().stream().mapToDouble(Double::doubleValue).sum();
      double y = 30 + CELL * r * 0.6;
      content.append(text(84, y + 17, "end", rows.get(r)));
      for (int c = 0; c < columns.size(); c++) {
        double share = row.getOrDefault(columns.get(c), 0.0) / seconds;
        int gray = (int) (255 * (1 - share));
        content.append(
            String.format(
                Locale.ROOT,
                "<rect x=\"%.1f\" y=\"%.1f\" width=\"%d\" height=\"%.1f\" fill=\"rgb(%d,%d,%d)\" stroke=\"#ddd\"/>%n",
                90.0 + CELL * c,
                y,
                CELL,
                CELL * 0.6,
                gray,
                gray,
                gray));
        if (share >= 0.005) {
          content.append(
              String.format(
                  Locale.ROOT,
                  "<text x=\"%.1f\" y=\"%.1f\" text-anchor=\"middle\" fill=\"%s\">%.0f</text>%n",
                  90 + CELL * (c + 0.5),
                  y + 17,
                  share > 0.5 ? "white" : "black",
                  100 * share));
        }
      }
    }
    return svg(
        110 + CELL * columns.size(), (int) (50 + CELL * 0.6 * rows.size()), content.toString());
  }

  /** Each song a dot, metric by metric; clean above worn. */
  private static String songs(Run run) {
    List<String> metrics =
        List.of(
            "beats.f",
            "downbeats.f",
            "key.weighted",
            "chords.root",
            "chords.majmin",
            "chords.sevenths",
            "bass.f",
            "melody.rawPitch",
            "melody.overall",
            "form.f3Trimmed");
    StringBuilder content = new StringBuilder();
    for (int m = 0; m < metrics.size(); m++) {
      double y = 30 + 40 * m;
      content.append(text(130, y + 4, "end", metrics.get(m)));
      for (String copy : List.of("clean", "worn")) {
        double at = copy.equals("clean") ? y - 6 : y + 8;
        content.append(
            String.format(
                Locale.ROOT,
                "<line x1=\"140\" x2=\"640\" y1=\"%.1f\" y2=\"%.1f\" stroke=\"#ddd\"/>%n",
                at,
                at));
        for (double value : run.values("undersong", copy, metrics.get(m))) {
          content.append(
              String.format(
                  Locale.ROOT,
                  "<circle cx=\"%.1f\" cy=\"%.1f\" r=\"3.5\" fill=\"%s\" fill-opacity=\"0.5\"/>%n",
                  140 + 500 * value,
                  at,
                  copy.equals("clean") ? "#235" : "#a52"));
        }
      }
    }
    double bottom = 30 + 40 * metrics.size();
    for (int tick = 0; tick <= 10; tick += 2) {
      content.append(text(140 + 50 * tick, bottom, "middle", "%.1f".formatted(tick / 10.0)));
    }
    return svg(680, (int) bottom + 12, content.toString());
  }
}
