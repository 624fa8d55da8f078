package undersong.cli;

import java.nio.file.Path;
import picocli.CommandLine.Option;
import undersong.shelf.Shelf;
import undersong.study.Study;
import undersong.work.Trouble;

/** Which shelf a command works on. */
final class ShelfOption {
  @Option(
      names = "--shelf",
      paramLabel = "PATH",
      description = "File of the shelf. Without it: one in your own data folder.")
  private String shelf;

  Path file() {
    if (shelf == null) {
      return Shelf.standardFile();
    }
    if (shelf.startsWith("jdbc:")) {
      throw new Trouble.WrongUsage(
          "--shelf %s must be a path; a shelf on a database server is not supported yet."
              .formatted(shelf));
    }
    return Path.of(shelf);
  }

  Study open() {
    return Study.on(file());
  }
}
