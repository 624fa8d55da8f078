package undersong.survey;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import undersong.render.DemoRenderer;
import undersong.render.DemoSong;
import undersong.render.DemoSongs;
import undersong.render.WavFile;

/** Whether a cluster gives the rows that one machine gives, and what a second core brings. */
@Command(
    name = "measure",
    mixinStandardHelpOptions = true,
    description =
        "Surveys the demo songs and some recordings on one and two cores, in one process and on a"
            + " cluster of this machine, compares the rows, and writes the page.")
final class MeasureCommand implements Runnable {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "PLACE", description = "Recordings, as for study.")
  private Path place;

  @Option(names = "--songs", defaultValue = "9", description = "How many of them.")
  private int songs;

  @Option(names = "--page", defaultValue = "bench/SURVEY.md", description = "Where it is written.")
  private Path page;

  @Option(names = "--options", defaultValue = "survey/java.options", hidden = true)
  private Path options;

  private Path scratch;
  private final List<Run> runs = new ArrayList<>();

  private record Run(String where, double seconds, double load, List<Row> rows) {}

  @Override
  public void run() {
    try {
      scratch = Files.createTempDirectory("undersong-survey-");
      List<Source> sources = new ArrayList<>(demo());
      Sources.in(place).stream().limit(songs).forEach(sources::add);
      survey("warm", "local[2]", sources.subList(0, 2));
      runs.clear();
      survey("one process, 1 recording at a time", "local[1]", sources);
      survey("one process, 2 recordings at a time", "local[2]", sources);
      for (int workers = 1; workers <= 2; workers++) {
        try (LocalCluster cluster =
            new LocalCluster(
                workers, "2g", scratch.resolve("cluster-" + workers), options.toAbsolutePath())) {
          survey("standalone cluster, workers: " + workers, cluster.address(), sources);
        }
      }
      Files.writeString(page, page(sources.size()));
      spec.commandLine().getOut().println(page + " is written");
    } catch (IOException broken) {
      throw new UncheckedIOException(broken);
    }
  }

  private List<Source> demo() throws IOException {
    List<Source> rendered = new ArrayList<>();
    for (DemoSong song : DemoSongs.all()) {
      Path file = scratch.resolve(song.id() + ".wav");
      WavFile.write(DemoRenderer.render(song), file);
      rendered.add(Source.of(file.toString()));
    }
    return rendered;
  }

  private void survey(String where, String master, List<Source> sources) throws IOException {
    SurveyFolder folder = new SurveyFolder(scratch.resolve("run-" + runs.size() + where));
    try (SparkSession spark = SurveySession.open(master, "2g")) {
      double load = ManagementFactory.getOperatingSystemMXBean().getSystemLoadAverage();
      long start = System.nanoTime();
      new Survey(spark, folder, line -> spec.commandLine().getErr().println(where + ": " + line))
          .run(sources);
      double seconds = (System.nanoTime() - start) / 1e9;
      List<Row> rows = folder.rows(spark).orderBy("content_hash").collectAsList();
      runs.add(new Run(where, seconds, load, rows));
    }
  }

  private String page(int recordings) {
    List<Row> first = runs.get(0).rows();
    StringBuilder text =
        new StringBuilder(
            """
            # The survey on one and two cores

            Written by `./survey/run measure`, %s, %d processors, Java %s. %d recordings: the demo songs and renderings of the
            bench's tuning set. A run opens every recording, studies it and writes its row. Load is the machine's one-minute average when the
            run began; where it is above the number of processors, others were at work and the times say little about more than this hour.

            | where | seconds | songs a minute | against the first | load | rows as the first |
            | --- | --- | --- | --- | --- | --- |
            """
                .formatted(
                    LocalDate.now(ZoneId.systemDefault()),
                    Runtime.getRuntime().availableProcessors(),
                    System.getProperty("java.version"),
                    recordings));
    for (Run run : runs) {
      text.append(
          String.format(
              Locale.ROOT,
              "| %s | %.0f | %.1f | %.2f | %.1f | %s |%n",
              run.where(),
              run.seconds(),
              60 * recordings / run.seconds(),
              runs.get(0).seconds() / run.seconds(),
              run.load(),
              same(first, run.rows())));
    }
    text.append(
        """

        Rows are compared in every column, the whole reading as text among them. In one process the program is warm; the workers of a
        cluster start cold, and their start is part of their time. Studying one recording already keeps a little more than one core busy: the
        decoder and the spectra run beside it.
        """);
    return text.toString();
  }

  private static String same(List<Row> first, List<Row> rows) {
    long equal = rows.stream().filter(first::contains).count();
    return rows.equals(first)
        ? "all %d identical".formatted(rows.size())
        : "%d of %d identical".formatted(equal, first.size());
  }
}
