package undersong.bench.charts;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import undersong.bench.data.Chart;
import undersong.bench.data.LiederReader;
import undersong.bench.data.NumeralSong;
import undersong.bench.data.OpenData;
import undersong.bench.data.RockNumeralReader;

/** Writes {@code bench/CHARTS.md}. */
final class ChartsPage {
  private static final Path PAGE = Path.of("bench/CHARTS.md");
  private final StringBuilder text = new StringBuilder();

  private ChartsPage() {}

  static void write(LearnedCharts charts) throws IOException {
    ChartsPage page = new ChartsPage();
    page.line("# What is measured on charts, without audio");
    page.line("");
    page.line(
        "Written by `./measure charts`; do not edit. Data: McGill Billboard (CC0), RS200 (T. de");
    page.line(
        "Clercq, D. Temperley; CC BY 4.0), Lieder of When in Rome (M. Gotham and others; analyses");
    page.line("CC BY-SA 4.0). Songs are named by data set and number only.");
    page.expectation(charts);
    page.keys(charts);
    page.agreement();
    page.rates(charts);
    Files.writeString(PAGE, page.text.toString());
  }

  private void expectation(LearnedCharts charts) {
    line("");
    line("## How well chords are expected");
    line("");
    line("Bits per chord, pooled (0 = certain; lower is better); *moment* = bits for the time of");
    line(
        "its arrival. A chord is new when what is kept of it differs from the one before. A plain");
    line("model measured on such charts before had 3.02 and 3.81 bits knowing other songs, 1.50");
    line("and 1.82 knowing this song so far too (degree and third; with sevenths).");
    figures(
        "%d songs that may be counted, ten-fold".formatted(charts.learned().size()),
        ExpectationFigures.tenfold(charts.learned()));
    figures(
        "%d songs that are never counted".formatted(charts.measured().size()),
        ExpectationFigures.apart(charts.learned(), charts.measured()));
  }

  private void keys(LearnedCharts charts) {
    line("");
    line("## How well chords tell the key");
    line("");
    line("Chords, bars and sections are known, nothing is heard. The evidence is counted on the");
    line("Billboard charts among those that may be learned from (`training/keys.py`).");
    line("");
    line(
        "| charts | songs | weighted, by time | tonic, by time | songs mostly in a wrong tonic |"
            + " change | of these told | steady, told to change |");
    line("| --- | --- | --- | --- | --- | --- | --- | --- |");
    keys("that may be counted", charts.learned());
    keys("never counted", charts.measured());
  }

  private void keys(String which, List<Chart> charts) {
    KeysFromChords told = KeysFromChords.over(charts);
    line(
        "| %s | %d | %.3f | %.3f | %.3f | %d | %d | %d |",
        which,
        told.songs(),
        told.weighted(),
        told.tonic(),
        told.wrong(),
        told.changing(),
        told.changingTold(),
        told.steadyTold());
  }

  private void agreement() throws IOException {
    line("");
    line("## What annotators' numerals say, and what is found in their chords");
    line("");
    line(
        "The chords, bars, sections and keys of an analysis become a reading; the finders work on");
    line("it. *Stated*: by the written numerals and keys alone (applied: V or vii above a target;");
    line(
        "borrowed: bIII, bVI, bVII, i, iv, v, ii° in major, I not before iv in minor; dominant of");
    line("harmonic minor: V or vii° in minor; lasting keys: 8 bars or more). A finding and a");
    line(
        "stated occurrence meet within a bar; one finding may tell of a whole section. What"
            + " stands");
    line("under another name counts. Loops count by song and are stated where a part of two to");
    line("eight chords is written once to be played three times or more; annotators also write");
    line("loops out, so there is no precision to tell.");
    List<NumeralSong> rock = RockNumeralReader.readAll(OpenData.folder("rock-corpus-rs200"));
    List<NumeralSong> lieder = LiederReader.readAll(OpenData.folder("when-in-rome-lieder")).read();
    boolean[] learned = {true, false};
    for (boolean which : learned) {
      List<NumeralSong> songs =
          rock.stream()
              .filter(s -> s.chart().id().compareTo(LearnedCharts.LAST_LEARNED_RS200) <= 0 == which)
              .toList();
      String name =
          which
              ? "RS200, misses looked into while the finders were made"
              : "RS200, misses never looked into";
      agreement(name, songs);
    }
    agreement("Lieder (When in Rome), misses never looked into", lieder);
  }

  private void agreement(String title, List<NumeralSong> songs) {
    line("");
    line("### %s: %d songs", title, songs.size());
    line("");
    line("| technique | stated | of these found | found | of these stated | precision | recall |");
    line("| --- | --- | --- | --- | --- | --- | --- |");
    NumeralAgreement.over(songs)
        .forEach(
            (id, count) ->
                line(
                    "| %s | %d | %d | %d | %d | %s | %s |",
                    id,
                    count.stated(),
                    count.statedFound(),
                    count.found(),
                    count.foundStated(),
                    id.equals(NumeralAgreement.LOOPS)
                        ? "-"
                        : share(count.foundStated(), count.found()),
                    share(count.statedFound(), count.stated())));
  }

  private static String share(int part, int all) {
    return all == 0 ? "-" : String.format(Locale.ROOT, "%.2f", (double) part / all);
  }

  private void rates(LearnedCharts charts) {
    line("");
    line("## How often each technique is found");
    line("");
    line("Share of songs in which it is told at least once, and findings a song, over the charts");
    line(
        "that may be learned from. What needs a tune, a sound or the way a song ends is not"
            + " counted.");
    line(
        "The same shares, by `./measure charts table`, are what ranking takes for rare or common.");
    line("");
    line("| technique | songs | findings a song |");
    line("| --- | --- | --- |");
    int songs = charts.learned().size();
    FiringRates.over(charts.learned())
        .forEach(
            (technique, rate) ->
                line(
                    "| %s | %.1f %% | %.2f |",
                    technique.id(),
                    100.0 * rate.songs() / songs,
                    (double) rate.findings() / songs));
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
