package undersong.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import undersong.exchange.TimedNote;
import undersong.exchange.TimedNotes;
import undersong.study.Study;
import undersong.work.Trouble;

@Command(
    name = "notes",
    mixinStandardHelpOptions = true,
    description = {
      "Brings in your own notes on a song as remarks, from CSV or JAMS.",
      "CSV: columns start, end (may be empty), words; times as seconds or M:SS. JAMS: tag_open.",
      "Notes that stand on the shelf already are passed over; if one line is wrong, none is taken."
    })
final class NotesCommand implements Runnable {
  @Spec private CommandSpec spec;
  @Mixin private ShelfOption shelf;

  @Parameters(
      index = "0",
      paramLabel = "SONG",
      description = "Number, title or file of a song on the shelf.")
  private String song;

  @Parameters(index = "1", paramLabel = "FILE", description = "The notes.")
  private Path file;

  @Override
  public void run() {
    List<TimedNote> notes = notes();
    try (Study study = shelf.open()) {
      String author = study.speaker().name();
      int added = study.notebook().bringIn(study.song(song).id(), author, notes).size();
      spec.commandLine()
          .getOut()
          .println(
              "%d remarks added, %d were there already".formatted(added, notes.size() - added));
    }
  }

  private List<TimedNote> notes() {
    try {
      return TimedNotes.read(Files.readString(file));
    } catch (IOException gone) {
      throw new Trouble.WrongUsage(
          "%s cannot be read as UTF-8 text: %s.".formatted(file, gone.getMessage()));
    } catch (IllegalArgumentException wrong) {
      throw new Trouble.WrongUsage("%s: %s".formatted(file, wrong.getMessage()));
    }
  }
}
