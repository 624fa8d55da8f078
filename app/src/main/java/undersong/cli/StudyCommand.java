package undersong.cli;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import undersong.exchange.FindingsJson;
import undersong.shelf.Song;
import undersong.study.Studied;
import undersong.study.Study;
import undersong.technique.Finding;
import undersong.technique.Ranking;
import undersong.technique.Texts;
import undersong.work.Cancellation;
import undersong.work.Trouble;

@Command(
    name = "study",
    mixinStandardHelpOptions = true,
    description = {
      "Studies recordings, puts them on the shelf and prints what is heard in each.",
      "WAV, AIFF, FLAC, MP3, M4A, OGG, Opus, or the sound of MP4, MKV and WebM. A file that cannot"
          + " be read does not stop the rest."
    })
final class StudyCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private ShelfOption shelf;

  @Parameters(arity = "1..*", paramLabel = "FILE", description = "Recordings to study.")
  private List<Path> files;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      description = "Also write <name of the file>.jams and .findings.json into this folder.")
  private Path outFolder;

  @Option(
      names = "--all",
      description = "Print and write findings that are more likely wrong than right, too.")
  private boolean all;

  @Option(names = "--title", paramLabel = "TEXT", description = "Title, for one single file.")
  private String title;

  @Option(names = "--artist", paramLabel = "TEXT", description = "Who plays it.")
  private String artist;

  @Option(names = "--year", paramLabel = "YEAR", description = "Year it came out.")
  private Integer year;

  @Option(
      names = "--copy",
      description =
          "Copy each recording beside the shelf and study the copy; without it, recordings stay"
              + " where they are.")
  private boolean copy;

  @Override
  public Integer call() {
    requireDifferentNames();
    if (title != null && files.size() > 1) {
      throw new Trouble.WrongUsage(
          "--title \"%s\" is for one file, but %d are given. Study them one by one to name them."
              .formatted(title, files.size()));
    }
    Song.Words said =
        new Song.Words(
            Optional.ofNullable(title), Optional.ofNullable(artist), Optional.ofNullable(year));
    int worst = 0;
    try (Study study = shelf.open()) {
      for (Path file : files) {
        worst = Math.max(worst, study(study, file, said));
      }
    }
    return worst;
  }

  private int study(Study study, Path file, Song.Words said) {
    var out = spec.commandLine().getOut();
    var err = spec.commandLine().getErr();
    Studied studied;
    List<Ranking.Ranked> ranked;
    try (ShownProgress progress = ShownProgress.of(String.valueOf(file.getFileName()), err)) {
      Cancellation never = new Cancellation();
      studied = study.study(copy ? study.copied(file, never) : file, said, progress, never);
      if (outFolder != null) {
        ExportFormat.JAMS.write(studied, outFolder.resolve(baseName(file) + ".jams"));
        writeFindings(study.findings(studied.song().id()), file);
      }
      ranked = study.ranked(studied.song().id());
    } catch (RuntimeException failure) {
      return Failures.report(failure, err);
    }
    out.println(ReadingPrinter.print(studied.song(), studied.stored().reading()));
    out.println(FindingsPrinter.print(study.arc(studied.song().id())));
    out.println(FindingsPrinter.print(ranked, all));
    out.flush();
    return 0;
  }

  private void writeFindings(List<Finding> findings, Path file) {
    List<Finding> told =
        findings.stream()
            .filter(finding -> all || finding.probability() >= FindingsJson.TOLD_FROM)
            .toList();
    ExportFormat.write(
        outFolder.resolve(baseName(file) + ".findings.json").toAbsolutePath(),
        FindingsJson.print(told, Texts.in(Locale.ENGLISH)).getBytes(StandardCharsets.UTF_8));
  }

  /** What is written for a file is named after it, so that two of one name would collide. */
  private void requireDifferentNames() {
    Map<String, Path> seen = new HashMap<>();
    for (Path file : files) {
      Path twin = seen.put(baseName(file), file);
      if (twin != null) {
        throw new Trouble.WrongUsage(
            """
            %s and %s have the same base name "%s"; in one call each must have its own, because \
            what is written for a file is named after it. Study them in two calls.\
            """
                .formatted(twin, file, baseName(file)));
      }
    }
  }

  static String baseName(Path file) {
    String name = String.valueOf(file.getFileName());
    int dot = name.lastIndexOf('.');
    return dot > 0 ? name.substring(0, dot) : name;
  }
}
