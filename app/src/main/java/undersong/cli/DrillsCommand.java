package undersong.cli;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import undersong.lesson.Lesson;
import undersong.lesson.drill.Drill;
import undersong.lesson.drill.DrillKind;
import undersong.lesson.drill.DrillWords;
import undersong.notation.NotationSettings;
import undersong.study.Study;
import undersong.work.Trouble;

@Command(
    name = "drills",
    mixinStandardHelpOptions = true,
    description = {
      "Writes a page of exercises for the ear on what a song does, in fresh keys.",
      "The page stands alone; its tones are made there. Sung answers are judged from the microphone"
          + " within a range the singer sets, and stay in the page."
    })
final class DrillsCommand implements Runnable {
  private static final int MOST_EACH = 50;

  @Spec private CommandSpec spec;
  @Mixin private ShelfOption shelf;

  @Parameters(paramLabel = "SONG", description = "Number, title or file of a song on the shelf.")
  private String song;

  @Option(names = "--to", required = true, paramLabel = "FILE", description = "Page to write.")
  private Path file;

  @Option(
      names = "--kind",
      paramLabel = "KIND",
      description = {
        "Only this kind; may be given again (default: those that suit the song). One of"
            + " resting-tone, tune-syllables, bass-syllables, early-bar, quality, added-note,"
            + " tension, loop, echo-or-again, place."
      })
  private List<String> kinds = List.of();

  @Option(
      names = "--each",
      paramLabel = "N",
      description = "Exercises of each kind and level, 1 to 50 (default: ${DEFAULT-VALUE}).")
  private int each = 10;

  @Option(
      names = "--seed",
      paramLabel = "N",
      description = "Another number makes other exercises (default: ${DEFAULT-VALUE}).")
  private long seed = 1;

  @Option(
      names = "--answers",
      paramLabel = "FILE",
      description = "Also write the answer key: every exercise in the page's order.")
  private Optional<Path> answers = Optional.empty();

  @Override
  public void run() {
    if (each < 1 || each > MOST_EACH) {
      throw new Trouble.WrongUsage("--each %d must lie within 1 to %d.".formatted(each, MOST_EACH));
    }
    try (Study study = shelf.open()) {
      Lesson lesson = study.lessons().draft(study.song(song).id(), 10, NotationSettings.DEFAULTS);
      Lesson titled = lesson.withTitle("Exercises: " + lesson.title());
      List<Drill> drills = study.lessons().drills(titled, kinds(), each, seed);
      String page = study.lessons().drillPage(titled, drills);
      ExportFormat.write(file.toAbsolutePath(), page.getBytes(StandardCharsets.UTF_8));
      spec.commandLine().getOut().println(file);
      if (answers.isPresent()) {
        byte[] key = DrillWords.answers(drills).getBytes(StandardCharsets.UTF_8);
        ExportFormat.write(answers.get().toAbsolutePath(), key);
        spec.commandLine().getOut().println(answers.get());
      }
    }
  }

  private Set<DrillKind> kinds() {
    Set<DrillKind> chosen = EnumSet.noneOf(DrillKind.class);
    for (String kind : kinds) {
      try {
        chosen.add(DrillKind.named(kind));
      } catch (IllegalArgumentException unknown) {
        throw new Trouble.WrongUsage(unknown.getMessage());
      }
    }
    return chosen;
  }
}
