package undersong.cli;

import java.io.PrintWriter;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import undersong.study.SongsWithoutSound.Checked;
import undersong.study.Study;

@Command(
    name = "check",
    mixinStandardHelpOptions = true,
    description = "Holds a song from memory against its recording: what it confirms, what not.")
final class CheckCommand implements Runnable {
  @Spec private CommandSpec spec;
  @Mixin private ShelfOption shelf;

  @Parameters(index = "0", paramLabel = "MEMORY", description = "The song from memory, by number.")
  private String memory;

  @Parameters(
      index = "1",
      paramLabel = "RECORDING",
      description = "The studied recording: number, title or file.")
  private String recording;

  @Override
  public void run() {
    PrintWriter out = spec.commandLine().getOut();
    try (Study study = shelf.open()) {
      List<Checked> checked =
          study.withoutSound().check(study.song(memory).id(), study.song(recording).id());
      if (checked.isEmpty()) {
        out.println("Only words were kept of it; there is nothing to hold against the recording.");
      }
      for (Checked one : checked) {
        out.println((one.confirmed() ? "confirmed:     " : "not confirmed: ") + one.what());
      }
      if (checked.stream().anyMatch(one -> !one.confirmed())) {
        out.println("Not confirmed means that the program does not hear it; listen yourself.");
      }
    }
  }
}
