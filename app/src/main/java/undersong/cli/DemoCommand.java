package undersong.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import undersong.render.DemoRenderer;
import undersong.render.DemoSong;
import undersong.render.DemoSongs;
import undersong.render.WavFile;
import undersong.shelf.Song;
import undersong.study.Studied;
import undersong.study.Study;
import undersong.work.Cancellation;
import undersong.work.Trouble;

@Command(
    name = "demo",
    mixinStandardHelpOptions = true,
    description =
        "Renders the built-in demo songs to sound, studies them and prints what is heard.")
final class DemoCommand implements Runnable {
  @Spec private CommandSpec spec;
  @Mixin private ShelfOption shelf;

  @Option(names = "--no-desk", description = "Stop after printing.")
  private boolean noDesk;

  @Override
  public void run() {
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    Path folder = shelf.place().folder().resolve("demo");
    try (Study study = shelf.open()) {
      for (DemoSong song : DemoSongs.all()) {
        Studied studied;
        try (ShownProgress progress = ShownProgress.of(song.title(), err)) {
          progress.at("rendering", 0);
          Path file = rendered(song, folder);
          studied = study.study(file, words(song), progress, new Cancellation());
        }
        out.println(ReadingPrinter.print(studied.song(), studied.stored().reading()));
        out.println(FindingsPrinter.print(study.arc(studied.song().id())));
        out.println(FindingsPrinter.print(study.ranked(studied.song().id()), false));
        out.flush();
      }
      if (!noDesk) {
        DeskCommand.serve(study, shelf.place().folder(), 0, true, out);
      }
    }
  }

  private static Song.Words words(DemoSong song) {
    return new Song.Words(Optional.of(song.title()), Optional.of(song.artist()), Optional.empty());
  }

  private static Path rendered(DemoSong song, Path folder) {
    Path file = folder.resolve(song.id() + ".wav");
    try {
      Files.createDirectories(folder);
      WavFile.write(DemoRenderer.render(song), file);
    } catch (IOException refused) {
      throw new Trouble.WrongUsage(
          "The demo cannot be written to %s (%s). Maybe the folder is read-only or the disk is full."
              .formatted(file, refused));
    }
    return file;
  }
}
