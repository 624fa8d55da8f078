package undersong.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import undersong.shelf.Song;
import undersong.study.SongsWithoutSound.Remembered;
import undersong.study.Study;
import undersong.technique.Technique;
import undersong.work.Trouble;

@Command(
    name = "remember",
    mixinStandardHelpOptions = true,
    description = {
      "Puts a song on the shelf as you remember it, without a recording, marked unchecked.",
      "Once a recording of it is studied, \"check\" says what it confirms."
    })
final class RememberCommand implements Runnable {
  @Spec private CommandSpec spec;
  @Mixin private ShelfOption shelf;

  @Option(names = "--title", required = true, paramLabel = "TEXT", description = "Its title.")
  private String title;

  @Option(names = "--artist", paramLabel = "TEXT", description = "Who plays it.")
  private String artist;

  @Option(names = "--year", paramLabel = "YEAR", description = "When it came out.")
  private Integer year;

  @Option(
      names = "--key",
      paramLabel = "KEY",
      description = "Its key, such as \"D major\"; without it, numerals stand for any.")
  private String key = "";

  @Option(
      names = "--numerals",
      paramLabel = "NUMERALS",
      description = "Its chords, such as \"I iii IV iv\", against the major scale.")
  private String numerals = "";

  @Option(
      names = "--figure",
      paramLabel = "SYLLABLES",
      description = "A figure, such as \"do re mi\"; minor begins on la.")
  private String figure = "";

  @Option(
      names = "--technique",
      paramLabel = "ID",
      description = "A technique of the catalogue; may be given several times.")
  private List<String> techniques = List.of();

  @Option(names = "--words", paramLabel = "TEXT", description = "Your own word for it.")
  private String words = "";

  @Override
  public void run() {
    List<Technique> named = new ArrayList<>();
    for (String id : techniques) {
      try {
        named.add(Technique.named(id));
      } catch (IllegalArgumentException none) {
        throw new Trouble.WrongUsage(String.valueOf(none.getMessage()));
      }
    }
    try (Study study = shelf.open()) {
      long song =
          study
              .withoutSound()
              .remember(
                  new Remembered(
                      new Song.Words(
                          Optional.of(title),
                          Optional.ofNullable(artist),
                          Optional.ofNullable(year)),
                      key,
                      numerals,
                      figure,
                      named,
                      words),
                  study.speaker().name());
      spec.commandLine().getOut().println("song %d, from memory, unchecked".formatted(song));
    }
  }
}
