package undersong.survey;

import java.io.IOException;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.apache.spark.sql.SparkSession;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import undersong.shelf.ShelfPlace;
import undersong.study.Study;
import undersong.work.Trouble;

/** The survey's command line. */
@Command(
    name = "survey/run",
    mixinStandardHelpOptions = true,
    description = "Studies recordings by the thousand, on this machine or on a cluster.",
    subcommands = {SurveyCommand.StudyAll.class, SurveyCommand.Shelve.class, MeasureCommand.class},
    footer = {
      "",
      "A cluster is reached by --master; it must see recordings and survey at the same paths.",
      "./survey/run node master and ./survey/run node worker ADDRESS start one of this program's"
          + " own."
    })
public final class SurveyCommand implements Runnable {
  private static final int WRONG_USAGE = 2;
  private static final int SOME_FAILED = 3;
  private static final int INSIDE = 5;

  @Spec private CommandSpec spec;

  private SurveyCommand() {}

  public static void main(String[] arguments) {
    System.exit(
        new CommandLine(new SurveyCommand())
            .setExecutionExceptionHandler(
                (failure, command, parsed) -> {
                  if (failure instanceof Trouble) {
                    command.getErr().println("survey: " + failure.getMessage());
                    return WRONG_USAGE;
                  }
                  if (Survey.isSparks(failure)) {
                    command.getErr().println("survey: Spark gave up: " + Survey.innermost(failure));
                    return INSIDE;
                  }
                  command.getErr().println("survey: this is a mistake in the program:");
                  failure.printStackTrace(command.getErr());
                  return INSIDE;
                })
            .execute(arguments));
  }

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "Say what to do: study or shelve.");
  }

  @Command(
      name = "study",
      mixinStandardHelpOptions = true,
      description = {
        "Studies what is new among some recordings, then counts techniques and progressions by"
            + " year.",
        "What cannot be studied is listed in failures.tsv and stops nothing. Run it again to go on"
            + " where it stopped."
      })
  static final class StudyAll implements Callable<Integer> {
    @Spec private CommandSpec spec;

    @Parameters(
        paramLabel = "PLACE",
        description =
            "A folder, or a text file with one path or address a line and, behind tabs, year,"
                + " artist, title.")
    private Path place;

    @Option(
        names = "--to",
        required = true,
        paramLabel = "DIR",
        description = "Where the survey is kept.")
    private Path folder;

    @Option(
        names = "--master",
        paramLabel = "ADDRESS",
        defaultValue = "local[*]",
        description = "Where it runs, such as spark://HOST:7077; default: ${DEFAULT-VALUE}.")
    private String master = "local[*]";

    @Option(
        names = "--memory",
        paramLabel = "SIZE",
        defaultValue = "2g",
        description = "Memory of each worker of a cluster; default: ${DEFAULT-VALUE}.")
    private String memory = "2g";

    @Override
    public Integer call() throws IOException {
      var out = spec.commandLine().getOut();
      var err = spec.commandLine().getErr();
      SurveyFolder survey = new SurveyFolder(folder.toAbsolutePath().normalize());
      var sources = Sources.in(place);
      try (SparkSession spark = SurveySession.open(master, memory)) {
        Survey.Outcome outcome = new Survey(spark, survey, err::println).run(sources);
        YearCounts.write(spark, survey, Worker.study().version());
        outcome.failures().forEach((where, why) -> err.println("left out: " + where + ": " + why));
        out.println(
            "%d studied now, %d known, %d left out; %s"
                .formatted(
                    outcome.studied(),
                    outcome.known(),
                    outcome.failures().size() + outcome.givenUp().size(),
                    survey.techniquesByYear()));
        return outcome.givenUp().isEmpty() ? 0 : SOME_FAILED;
      }
    }
  }

  @Command(
      name = "shelve",
      mixinStandardHelpOptions = true,
      description =
          "Puts the songs of a survey on a shelf; songs corrected there stay as they are.")
  static final class Shelve implements Callable<Integer> {
    @Spec private CommandSpec spec;

    @Parameters(paramLabel = "DIR", description = "A survey.")
    private Path folder;

    @Option(
        names = "--shelf",
        paramLabel = "PLACE",
        defaultValue = "${env:UNDERSONG_SHELF}",
        description = "The shelf, as for ./undersong; without it, the one that uses.")
    private String shelf;

    @Override
    public Integer call() throws IOException {
      ShelfPlace place =
          shelf == null || shelf.isBlank() ? ShelfPlace.standard() : ShelfPlace.named(shelf);
      SurveyFolder survey = new SurveyFolder(folder.toAbsolutePath().normalize()).requireSurvey();
      try (SparkSession spark = SurveySession.open("local[*]", "1g");
          Study study = Study.on(place)) {
        Shelving.Outcome outcome = Shelving.shelve(spark, survey, Worker.study().version(), study);
        outcome.failed().forEach(line -> spec.commandLine().getErr().println("left out: " + line));
        spec.commandLine()
            .getOut()
            .println(
                "%d put on the shelf, %d were there".formatted(outcome.kept(), outcome.there()));
        return outcome.failed().isEmpty() ? 0 : SOME_FAILED;
      }
    }
  }
}
