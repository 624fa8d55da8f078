package undersong.bench.charts;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;

/** Writes {@code bench/CHARTS.md}. */
final class ChartsPage {
  private static final Path PAGE = Path.of("bench/CHARTS.md");
  private final StringBuilder text = new StringBuilder();

  private ChartsPage() {}

  static void write(LearnedCharts charts) throws IOException {
    ChartsPage page = new ChartsPage();
    page.line("# What is measured on charts, without audio");
    page.line("");
    page.line("Written by `./measure charts`; do not edit. Data: McGill Billboard (CC0) and RS200");
    page.line(
        "(T. de Clercq, D. Temperley; CC BY 4.0); songs are named by data set and number only.");
    page.expectation(charts);
    Files.writeString(PAGE, page.text.toString());
  }

  private void expectation(LearnedCharts charts) {
    line("");
    line("## How well chords are expected");
    line("");
    line("Bits per chord, pooled (0 = certain; lower is better); *moment* = bits for the time of");
    line(
        "its arrival. A chord is new when what is kept of it differs from the one before. A plain");
    line(
        "model (fixed order, same data): %s.", "3.02 / 3.81 knowing other songs, 1.50 / 1.82 with");
    line("this song so far, for degree and third / with sevenths.");
    figures(
        "%d songs that may be counted, ten-fold".formatted(charts.learned().size()),
        ExpectationFigures.tenfold(charts.learned()));
    figures(
        "%d songs that are never counted".formatted(charts.measured().size()),
        ExpectationFigures.apart(charts.learned(), charts.measured()));
  }

  private void figures(String title, List<ExpectationFigures.Row> rows) {
    line("");
    line("### %s", title);
    line("");
    line("| chord | listener knows | chords | bits | moment |");
    line("| --- | --- | --- | --- | --- |");
    for (ExpectationFigures.Row row : rows) {
      line(
          "| %s | %s | %d | %.2f | %.2f |",
          row.kept().words(),
          row.listener().words(),
          row.chords(),
          row.chordBits(),
          row.arrivalBits());
    }
  }

  private void line(String format, Object... values) {
    text.append(values.length == 0 ? format : String.format(Locale.ROOT, format, values))
        .append('\n');
  }
}
