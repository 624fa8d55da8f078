package undersong.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import undersong.shelf.Origin;
import undersong.study.Study;
import undersong.technique.Technique;
import undersong.trend.Counted;
import undersong.trend.Share;
import undersong.trend.Trend;
import undersong.trend.Trend.Group;
import undersong.trend.Trend.Grouping;
import undersong.trend.TrendPicture;
import undersong.trend.Unusual;
import undersong.work.Trouble;

@Command(
    name = "trends",
    mixinStandardHelpOptions = true,
    description = {
      "Says how often a technique or a progression occurs on the shelf, or how unusual a song is.",
      "Ranges are 95 %% Wilson intervals: where few songs stand behind a share, they are wide."
    })
final class TrendsCommand implements Runnable {
  @Spec private CommandSpec spec;
  @Mixin private ShelfOption shelf;

  @ArgGroup(multiplicity = "1")
  private Asked asked = new Asked();

  /** One of the three questions. */
  private static final class Asked {
    @Option(
        names = "--technique",
        paramLabel = "ID",
        description = "A technique of the catalogue, such as borrowed-chord.")
    private String technique;

    @Option(
        names = "--progression",
        paramLabel = "NUMERALS",
        description =
            "Numerals in a row against the major scale, such as \"I iii IV iv\"; sevenths and"
                + " inversions do not matter.")
    private String progression;

    @Option(
        names = "--unusual",
        paramLabel = "SONG",
        description = "What sets this song apart: its number or title.")
    private String song;
  }

  @Option(
      names = "--by",
      paramLabel = "GROUP",
      defaultValue = "DECADE",
      description = "${COMPLETION-CANDIDATES}; default: ${DEFAULT-VALUE}.")
  private Grouping by = Grouping.DECADE;

  @Option(
      names = "--from",
      paramLabel = "ORIGIN",
      split = ",",
      description =
          "Which songs count: ${COMPLETION-CANDIDATES}, several with commas. Without it, only"
              + " those heard from a recording.")
  private List<Origin> origins = List.of(Origin.RECORDING);

  @Option(
      names = "--within",
      paramLabel = "WORDS",
      description = "Only songs that hold each word in title, artist, year, key, meter or file.")
  private String within = "";

  @Option(names = "--picture", paramLabel = "FILE", description = "Also draw it, as SVG.")
  private Path picture;

  @Override
  public void run() {
    PrintWriter out = spec.commandLine().getOut();
    try (Study study = shelf.open()) {
      if (asked.song != null) {
        unusual(study, out);
        return;
      }
      Trend trend = study.trends().of(counted(), by, EnumSet.copyOf(origins), within);
      out.println(trend.words());
      trend.groups().forEach(group -> out.println(line(group)));
      if (trend.ungrouped() > 0 && by != Grouping.ORIGIN) {
        out.println(
            trend.ungrouped() == 1
                ? "  1 song says none and stands in no group"
                : "  %d songs say none and stand in no group".formatted(trend.ungrouped()));
      }
      out.println(trend.said());
      draw(trend);
    }
  }

  private Counted counted() {
    try {
      return asked.technique != null
          ? Counted.technique(Technique.named(asked.technique))
          : Counted.progression(asked.progression);
    } catch (IllegalArgumentException wrong) {
      throw new Trouble.WrongUsage(String.valueOf(wrong.getMessage()));
    }
  }

  private void unusual(Study study, PrintWriter out) {
    long song = study.song(asked.song).id();
    Unusual unusual = study.trends().unusual(song, EnumSet.copyOf(origins));
    for (Unusual.Rare rare : unusual.rare()) {
      out.println("  %-26s %s".formatted(rare.technique(), shown(rare.others())));
    }
    out.println(unusual.said());
    out.println(study.trends().experience(song, EnumSet.copyOf(origins)).said());
  }

  private static String line(Group group) {
    return "  %-26s %s%s"
        .formatted(
            group.name(), shown(group.share()), group.isTellable() ? "" : "  too few to say");
  }

  private static String shown(Share share) {
    return String.format(
        Locale.ROOT,
        "%5d of %-5d %3.0f %%  (%.0f to %.0f)",
        share.songs(),
        share.of(),
        100 * share.value(),
        100 * share.low(),
        100 * share.high());
  }

  private void draw(Trend trend) {
    if (picture == null) {
      return;
    }
    try {
      Files.writeString(picture, TrendPicture.svg(trend));
    } catch (IOException refused) {
      throw new Trouble.WrongUsage(
          "The picture cannot be written to %s (%s); it must be a file in a folder that can be written to."
              .formatted(picture, refused.getMessage()));
    }
  }
}
