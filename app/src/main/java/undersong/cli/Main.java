package undersong.cli;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The command line: parses words, calls the study, prints what it hears. */
@Command(
    name = "undersong",
    mixinStandardHelpOptions = true,
    version = "undersong 0.1.0",
    description = "Hears tempo, bars, keys, chords, bass and form out of a finished recording.",
    subcommands = {
      DemoCommand.class,
      StudyCommand.class,
      DeskCommand.class,
      ShelfCommand.class,
      TrendsCommand.class,
      ChartsCommand.class,
      JamsCommand.class,
      RememberCommand.class,
      CheckCommand.class,
      ExportCommand.class,
      NotesCommand.class,
      LessonCommand.class,
      DrillsCommand.class,
      SketchCommand.class,
      CompareCommand.class
    },
    exitCodeListHeading = "%nExit codes:%n",
    exitCodeList = {
      "0:done",
      "2:wrong usage",
      "3:a recording could not be read",
      "4:no such song on the shelf",
      "5:something failed inside"
    },
    footer = {
      "",
      "Everything stays on this machine. Studying a recording you own is one thing, publishing"
          + " parts of it another; the law on that differs by country."
    })
public final class Main implements Runnable {
  @Spec private CommandSpec spec;

  Main() {}

  public static void main(String[] arguments) {
    System.exit(
        run(writer(new FileOutputStream(FileDescriptor.out)), writer(System.err), arguments));
  }

  /** Runs one command line and gives its exit code. */
  static int run(PrintWriter out, PrintWriter err, String... arguments) {
    CommandLine commandLine =
        new CommandLine(new Main())
            .setOut(out)
            .setErr(err)
            .setCaseInsensitiveEnumValuesAllowed(true)
            .setExecutionExceptionHandler(
                (failure, command, parsed) -> Failures.report(failure, command.getErr()));
    int code = commandLine.execute(arguments);
    out.flush();
    err.flush();
    return code;
  }

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "Say what to do: one of the commands below.");
  }

  private static PrintWriter writer(OutputStream stream) {
    return new PrintWriter(new OutputStreamWriter(stream, StandardCharsets.UTF_8), true);
  }
}
