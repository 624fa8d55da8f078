package undersong.cli;

import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import undersong.lesson.sketch.Sketch;
import undersong.lesson.sketch.SketchMaker;
import undersong.study.Study;
import undersong.technique.Technique;
import undersong.work.Trouble;

@Command(
    name = "sketch",
    mixinStandardHelpOptions = true,
    description = {
      "Writes a new piece of 8 to 16 bars that uses one technique: sound, MIDI, MusicXML, and a"
          + " page of words.",
      "Equal seeds make equal pieces; another seed, another key, pace and tune."
    })
final class SketchCommand implements Runnable {
  @Spec private CommandSpec spec;
  @Mixin private ShelfOption shelf;

  @Option(
      names = "--technique",
      required = true,
      paramLabel = "ID",
      description = "What it shows, by its id in docs/techniques.md.")
  private String technique;

  @Option(
      names = "--song",
      paramLabel = "SONG",
      description = "A song on the shelf that it must not quote.")
  private Optional<String> song = Optional.empty();

  @Option(
      names = "--seed",
      paramLabel = "N",
      description = "Which of the endless pieces (default: ${DEFAULT-VALUE}).")
  private long seed = 1;

  @Option(names = "--to", required = true, paramLabel = "DIR", description = "Folder to write to.")
  private Path folder;

  @Override
  public void run() {
    try (Study study = shelf.open()) {
      OptionalLong beside =
          song.isPresent() ? OptionalLong.of(study.song(song.get()).id()) : OptionalLong.empty();
      Sketch sketch = study.lessons().sketch(wanted(), seed, beside);
      for (Map.Entry<String, byte[]> file : study.lessons().files(sketch).entrySet()) {
        ExportFormat.write(folder.resolve(file.getKey()).toAbsolutePath(), file.getValue());
        spec.commandLine().getOut().println(folder.resolve(file.getKey()));
      }
    }
  }

  private Technique wanted() {
    try {
      return Technique.named(technique);
    } catch (IllegalArgumentException unknown) {
      throw new Trouble.WrongUsage(
          "There is no technique \"%s\"; sketches show %s."
              .formatted(
                  technique,
                  SketchMaker.known().stream()
                      .map(Technique::id)
                      .collect(Collectors.joining(", "))));
    }
  }
}
