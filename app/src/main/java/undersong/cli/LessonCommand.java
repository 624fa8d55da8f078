package undersong.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import undersong.lesson.Lesson;
import undersong.lesson.LessonChange;
import undersong.lesson.LessonItem;
import undersong.lesson.LessonJson;
import undersong.lesson.drill.DrillKind;
import undersong.notation.NotationSettings;
import undersong.study.Study;
import undersong.theory.NumeralSettings;
import undersong.theory.SyllableSettings;
import undersong.theory.TransposingInstrument;
import undersong.work.Trouble;

@Command(
    name = "lesson",
    mixinStandardHelpOptions = true,
    description = {
      "Writes a lesson on a song: a page that stands alone, a running order, chapters, notation.",
      "Unless a lesson kept on the shelf is named, it holds the findings most worth telling.",
      "Staves and plain tones quote the composition; the recording itself is left out unless"
          + " --excerpts asks for it. Laws on teaching and quotation differ by country."
    })
final class LessonCommand implements Runnable {
  private static final int MOST_ITEMS = 60;

  @Spec private CommandSpec spec;
  @Mixin private ShelfOption shelf;

  @Parameters(paramLabel = "SONG", description = "Number, title or file of a song on the shelf.")
  private String song;

  @Option(names = "--to", required = true, paramLabel = "DIR", description = "Folder to write to.")
  private Path folder;

  @Option(
      names = "--items",
      paramLabel = "N",
      description = "Findings to take, 1 to 60 (default: ${DEFAULT-VALUE}).")
  private int items = 10;

  @Option(names = "--remarks", description = "Add your remarks on the song, after the findings.")
  private boolean remarks;

  @Option(
      names = "--kept",
      paramLabel = "NUMBER",
      description = "A lesson kept on the shelf, instead of a draft.")
  private Optional<Long> kept = Optional.empty();

  @Option(
      names = "--minor",
      paramLabel = "SYLLABLE",
      description = "la or do: where minor begins (default: la).")
  private String minor = "la";

  @Option(
      names = "--for",
      paramLabel = "INSTRUMENT",
      description = "Write for a transposing instrument: ${COMPLETION-CANDIDATES}.")
  private TransposingInstrument instrument = TransposingInstrument.CONCERT;

  @Option(
      names = "--level",
      paramLabel = "N",
      description = "Of the class, 1 to 3: where the exercises begin (default: as kept, else 1).")
  private Optional<Integer> level = Optional.empty();

  @Option(
      names = "--excerpts",
      description = "Carry each item's stretch of the recording. Mind the rights in it.")
  private boolean excerpts;

  @Option(names = "--pdf", description = "Also lesson.pdf, printed by an installed Chromium.")
  private boolean pdf;

  @Option(
      names = "--paper",
      paramLabel = "SIZE",
      description = "Of the PDF: ${COMPLETION-CANDIDATES} (default: ${DEFAULT-VALUE}).")
  private PrintedPage.Paper paper = PrintedPage.Paper.A4;

  @Override
  public void run() {
    PrintWriter out = spec.commandLine().getOut();
    try (Study study = shelf.open()) {
      Lesson lesson = lesson(study, study.song(song).id());
      if (lesson.items().isEmpty()) {
        spec.commandLine()
            .getErr()
            .println("Nothing was found that is sure enough for a class; the lesson has no items.");
      }
      for (Map.Entry<String, byte[]> file : study.lessons().files(lesson).entrySet()) {
        Path path = folder.resolve(file.getKey()).toAbsolutePath();
        ExportFormat.write(path, file.getValue());
        out.println(folder.resolve(file.getKey()));
      }
      if (pdf) {
        out.println(
            PrintedPage.print(folder.resolve("lesson.html"), folder.resolve("lesson.pdf"), paper));
      }
    }
  }

  private Lesson lesson(Study study, long songId) {
    Lesson lesson =
        kept.isPresent()
            ? LessonJson.read(study.lessons().get(kept.get()).json(), songId)
            : study.lessons().draft(songId, requireItems(), settings());
    for (LessonChange change : study.lessons().changes(lesson)) {
      spec.commandLine()
          .getErr()
          .printf(
              "Item %d was told otherwise when it was chosen: \"%s\"; now: %s%n",
              change.item() + 1,
              change.before(),
              change.now().map(now -> "\"" + now + "\"").orElse("no more."));
    }
    if (remarks) {
      List<LessonItem> all = new ArrayList<>(lesson.items());
      all.addAll(study.lessons().remarks(songId));
      lesson = lesson.withItems(all);
    }
    lesson = level.isPresent() ? lesson.withLevel(requireLevel(level.get())) : lesson;
    return excerpts
        ? lesson.withItems(lesson.items().stream().map(item -> item.withExcerpt(true)).toList())
        : lesson;
  }

  private static int requireLevel(int level) {
    if (level < 1 || level > DrillKind.LEVELS) {
      throw new Trouble.WrongUsage(
          "--level %d must lie within 1 to %d.".formatted(level, DrillKind.LEVELS));
    }
    return level;
  }

  private int requireItems() {
    if (items < 1 || items > MOST_ITEMS) {
      throw new Trouble.WrongUsage(
          "--items %d must lie within 1 to %d.".formatted(items, MOST_ITEMS));
    }
    return items;
  }

  private NotationSettings settings() {
    SyllableSettings.Minor start =
        switch (minor) {
          case "la" -> SyllableSettings.Minor.LA_BASED;
          case "do" -> SyllableSettings.Minor.DO_BASED;
          default ->
              throw new Trouble.WrongUsage("--minor \"%s\" must be la or do.".formatted(minor));
        };
    return new NotationSettings(
        NumeralSettings.DEFAULTS, SyllableSettings.DEFAULTS.withMinor(start), instrument);
  }
}
