package undersong.cli;

import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import undersong.shelf.Origin;
import undersong.study.JamsFolder.Outcome;
import undersong.study.Study;

@Command(
    name = "jams",
    mixinStandardHelpOptions = true,
    description = {
      "Writes the whole shelf as a folder of JAMS files, or reads such a folder.",
      "Read back, a file of a recording on the shelf corrects its reading, in one step that can be"
          + " taken back; any other becomes a song without sound."
    })
final class JamsCommand implements Runnable {
  @Spec private CommandSpec spec;
  @Mixin private ShelfOption shelf;

  @ArgGroup(multiplicity = "1")
  private Direction direction = new Direction();

  /** Out or in. */
  private static final class Direction {
    @Option(names = "--write", paramLabel = "DIR", description = "Folder to write to.")
    private Path out;

    @Option(names = "--read", paramLabel = "DIR", description = "Folder to read.")
    private Path in;
  }

  @Option(
      names = "--from",
      paramLabel = "ORIGIN",
      split = ",",
      description = "Which songs are written: ${COMPLETION-CANDIDATES}; default: RECORDING.")
  private List<Origin> origins = List.of(Origin.RECORDING);

  @Override
  public void run() {
    try (Study study = shelf.open()) {
      Outcome outcome =
          direction.out != null
              ? study.jams().write(direction.out, EnumSet.copyOf(origins))
              : study.jams().read(direction.in, study.speaker().name());
      outcome.failed().forEach(line -> spec.commandLine().getErr().println("left out: " + line));
      spec.commandLine()
          .getOut()
          .println(
              direction.out != null
                  ? "%d songs written".formatted(outcome.written())
                  : "%d songs corrected, %d added without sound, %d were there already"
                      .formatted(outcome.corrected(), outcome.written(), outcome.known()));
    }
  }
}
