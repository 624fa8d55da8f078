package undersong.cli;

import java.nio.file.Path;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import undersong.study.Studied;
import undersong.study.Study;

@Command(
    name = "export",
    mixinStandardHelpOptions = true,
    description = {
      "Writes what is heard in a song in a format others read. No part of the recording is written.",
      "A tune written down is a copy of a composition, which is a right of its own; the law on that"
          + " differs by country."
    })
final class ExportCommand implements Runnable {
  @Spec private CommandSpec spec;
  @Mixin private ShelfOption shelf;

  @Parameters(paramLabel = "SONG", description = "Number, title or file of a song on the shelf.")
  private String song;

  @Option(
      names = "--as",
      required = true,
      paramLabel = "FORMAT",
      description = {
        "jams (everything), csv (chords; beats, sections, keys and notes in tables beside it), midi"
            + " (bass, chords and melody), or chapters (WebVTT if the file ends in .vtt, else plain"
            + " lines)."
      })
  private ExportFormat format;

  @Option(names = "--to", required = true, paramLabel = "FILE", description = "File to write.")
  private Path file;

  @Override
  public void run() {
    try (Study study = shelf.open()) {
      Studied studied = study.reading(study.song(song).id());
      format.write(studied, file).forEach(spec.commandLine().getOut()::println);
    }
  }
}
