package undersong.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import undersong.study.SongComparison;
import undersong.study.Study;
import undersong.technique.Technique;
import undersong.technique.Texts;
import undersong.time.Span;

@Command(
    name = "compare",
    mixinStandardHelpOptions = true,
    description = {
      "Two songs of the shelf, or two sections, side by side: what both do, and what only one"
          + " does.",
      "A section is named by its place: 3@61-75."
    })
final class CompareCommand implements Runnable {
  private static final int BAR_COLUMNS = 30;

  @Spec private CommandSpec spec;
  @Mixin private ShelfOption shelf;

  @Parameters(index = "0", paramLabel = "A", description = "A song, or SONG@FROM-TO in seconds.")
  private String first;

  @Parameters(index = "1", paramLabel = "B", description = "Another, or another place of the same.")
  private String second;

  @Override
  public void run() {
    PrintWriter out = spec.commandLine().getOut();
    Texts texts = Texts.in(Locale.ENGLISH);
    try (Study study = shelf.open()) {
      SongComparison compared = study.compare(first, second);
      out.printf("A  %s%nB  %s%n%n", compared.first().title(), compared.second().title());
      techniques(out, "Both", compared.both(), texts);
      techniques(out, "Only A", compared.onlyFirst(), texts);
      techniques(out, "Only B", compared.onlySecond(), texts);
      compared
          .progression()
          .ifPresentOrElse(
              shared ->
                  out.printf(
                      "%nThe same %d chords in a row, %s: A at %s, B at %s.%n",
                      shared.length(), shared.words(), at(shared.inFirst()), at(shared.inSecond())),
              () -> out.printf("%nNo three chords in a row are the same.%n"));
      compared
          .figure()
          .ifPresent(
              shared ->
                  out.printf(
                      "The same figure of %d notes in the tune, %s in A: A at %s, B at %s, %s.%n",
                      shared.length(),
                      shared.words(),
                      at(shared.inFirst()),
                      at(shared.inSecond()),
                      moved(shared.semitones())));
      out.printf("As a whole %s alike in chords and tune.%n", Words.percent(compared.likeness()));
      energy(out, "A", compared.firstEnergy());
      energy(out, "B", compared.secondEnergy());
    }
  }

  private static void techniques(PrintWriter out, String who, Set<Technique> found, Texts texts) {
    if (!found.isEmpty()) {
      out.printf(
          "%-7s %s%n",
          who, found.stream().map(texts::name).sorted().collect(Collectors.joining(", ")));
    }
  }

  private static String at(Span span) {
    return Words.time(span.startSeconds());
  }

  private static String moved(int semitones) {
    return semitones == 0
        ? "at the same pitch"
        : "%d semitones %s".formatted(Math.abs(semitones), semitones > 0 ? "higher" : "lower");
  }

  /** Sections as bars from the lowest to the highest. */
  private static void energy(PrintWriter out, String who, List<SongComparison.Energy> sections) {
    double low = sections.stream().mapToDouble(SongComparison.Energy::height).min().orElse(0);
    double high = sections.stream().mapToDouble(SongComparison.Energy::height).max().orElse(0);
    out.printf("%nEnergy of %s%n", who);
    for (SongComparison.Energy section : sections) {
      double share = high > low ? (section.height() - low) / (high - low) : 0;
      out.printf(
          "  %5s %-2s %s%n",
          Words.time(section.span().startSeconds()),
          section.letter(),
          "#".repeat(1 + (int) Math.round(share * BAR_COLUMNS)));
    }
  }
}
