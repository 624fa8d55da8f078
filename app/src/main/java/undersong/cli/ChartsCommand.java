package undersong.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Optional;
import java.util.Set;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import undersong.shelf.Origin;
import undersong.study.SongsWithoutSound.Loaded;
import undersong.study.Study;
import undersong.work.Trouble;

@Command(
    name = "charts",
    mixinStandardHelpOptions = true,
    description = {
      "Puts published chord charts on the shelf as songs without sound, kept apart from your own.",
      "Reads the McGill Billboard annotations and RS200 in the form their authors publish them."
    })
final class ChartsCommand implements Runnable {
  @Spec private CommandSpec spec;
  @Mixin private ShelfOption shelf;

  @Parameters(
      arity = "0..1",
      paramLabel = "FOLDER",
      description = "Holds the data sets' folders. Without it: the folder UNDERSONG_DATA names.")
  private Path folder;

  @Override
  public void run() {
    PrintWriter out = spec.commandLine().getOut();
    Path data =
        Optional.ofNullable(folder)
            .or(() -> Optional.ofNullable(System.getenv("UNDERSONG_DATA")).map(Path::of))
            .orElseThrow(
                () ->
                    new Trouble.WrongUsage(
                        "Name the folder that holds the charts, or set UNDERSONG_DATA to it."));
    try (Study study = shelf.open()) {
      Loaded loaded = study.withoutSound().loadCharts(data);
      loaded.refused().forEach(line -> spec.commandLine().getErr().println("not read: " + line));
      out.println(
          "%d charts added, %d were there already, %d could not be read"
              .formatted(loaded.added(), loaded.known(), loaded.refused().size()));
      study.songs("", Set.of(Origin.CHART)).stream()
          .map(entry -> entry.song().source())
          .distinct()
          .forEach(source -> out.println("  " + source));
    }
  }
}
