package undersong.bench.charts;

import java.io.IOException;

/** {@code ./measure charts}: all that is measured on charts, to {@code bench/CHARTS.md}. */
public final class ChartMeasure {
  private ChartMeasure() {}

  /**
   * @param what "table" to count the charts anew into the program's tables; "" to measure
   */
  public static void run(String what) throws IOException {
    LearnedCharts charts = LearnedCharts.read();
    switch (what) {
      case "table" -> {
        ChartTable.write(charts);
        CommonnessTable.write(charts);
      }
      case "" -> ChartsPage.write(charts);
      default ->
          throw new IllegalArgumentException(
              "\"%s\" is no part of the measure on charts; there is table.".formatted(what));
    }
  }
}
