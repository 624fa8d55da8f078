package undersong.cli;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import undersong.exchange.FindingsJson;
import undersong.technique.Arc;
import undersong.technique.BarRange;
import undersong.technique.Finding;
import undersong.technique.FindingGroup;
import undersong.technique.Ranking;
import undersong.technique.Technique;
import undersong.technique.Texts;

/**
 * Findings as they are told: theory, songwriting, production; one line per technique and section
 * with the bars of every occurrence, the most telling first.
 */
final class FindingsPrinter {
  private static final String INDENT = "      ";

  private FindingsPrinter() {}

  /**
   * The page, ending in a line break; "" where nothing is found.
   *
   * @param all also those more likely wrong than right
   */
  static String print(List<Ranking.Ranked> ranked, boolean all) {
    Texts texts = Texts.in(Locale.ENGLISH);
    List<FindingGroup> groups =
        ranked.stream()
            .map(Ranking.Ranked::group)
            .filter(group -> all || group.probability() >= FindingsJson.TOLD_FROM)
            .toList();
    StringBuilder page = new StringBuilder();
    for (Technique.Kind kind : Technique.Kind.values()) {
      List<FindingGroup> ofKind =
          groups.stream().filter(group -> group.technique().kind() == kind).toList();
      if (!ofKind.isEmpty()) {
        page.append('\n').append(texts.kind(kind)).append('\n');
        ofKind.forEach(group -> append(page, group, texts));
      }
    }
    return page.toString();
  }

  /** Where the song peaks and what follows, in a line; "" where nothing stands out. */
  static String print(Arc arc) {
    if (arc.climax().isEmpty()) {
      return "";
    }
    Texts texts = Texts.in(Locale.ENGLISH);
    Arc.Stage climax = arc.stages().get(arc.climax().get());
    List<String> respects = new ArrayList<>();
    climax.loudnessLu().ifPresent(lu -> respects.add(signed(lu, " LU")));
    climax
        .densityFactor()
        .ifPresent(f -> respects.add(String.format(Locale.ROOT, "%.1f times as dense", f)));
    climax
        .registerSemitones()
        .ifPresent(st -> respects.add("the tune " + signed(st, " semitones")));
    climax.widthDb().ifPresent(db -> respects.add("width " + signed(db, " dB")));
    String after =
        arc.payoffAtEnd()
            ? "the payoff the song has waited for"
            : arc.chorusReturns() ? "the chorus returns after it" : "no chorus returns after it";
    return "The song peaks in "
        + texts.say(climax.section().words())
        + " ("
        + Words.time(climax.section().span().startSeconds())
        + "): "
        + String.join(", ", respects)
        + " against the middle of the song; "
        + after
        + ".";
  }

  private static String signed(double value, String unit) {
    return String.format(Locale.ROOT, "%+.1f%s", value, unit);
  }

  private static void append(StringBuilder page, FindingGroup group, Texts texts) {
    Finding telling = group.telling();
    String head =
        "  %s · %s · %s"
            .formatted(
                texts.name(group.technique()), places(group), Words.percent(group.probability()));
    page.append(head).append('\n');
    page.append(folded(texts.summary(telling)));
    if (!telling.under().isEmpty()) {
      page.append(
          folded(
              "Also: "
                  + telling.under().stream().map(texts::name).collect(Collectors.joining(", "))));
    }
  }

  private static String places(FindingGroup group) {
    return group.occurrences().stream()
        .sorted(Comparator.comparingDouble(finding -> finding.span().startSeconds()))
        .filter(finding -> finding.probability() >= 0.5 || group.probability() < 0.5)
        .map(FindingsPrinter::place)
        .distinct()
        .collect(Collectors.joining(", "));
  }

  private static String place(Finding finding) {
    String time = Words.time(finding.span().startSeconds());
    return finding
        .bars()
        .map(FindingsPrinter::bars)
        .map(bars -> bars + " (" + time + ")")
        .orElse(time);
  }

  private static String bars(BarRange bars) {
    return bars.bars() == 1 ? "bar " + bars.first() : "bars " + bars.first() + "-" + bars.last();
  }

  private static String folded(String text) {
    StringBuilder lines = new StringBuilder();
    StringBuilder line = new StringBuilder(INDENT);
    for (String word : text.split(" ", -1)) {
      if (line.length() + word.length() >= ReadingPrinter.COLUMNS
          && line.length() > INDENT.length()) {
        lines.append(line.toString().stripTrailing()).append('\n');
        line = new StringBuilder(INDENT);
      }
      line.append(word).append(' ');
    }
    return lines.append(line.toString().stripTrailing()).append('\n').toString();
  }
}
