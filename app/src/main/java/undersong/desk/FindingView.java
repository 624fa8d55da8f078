package undersong.desk;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import undersong.lesson.sketch.SketchMaker;
import undersong.reading.Reading;
import undersong.shelf.Verdict;
import undersong.technique.Evidence;
import undersong.technique.Finding;
import undersong.technique.FindingGroup;
import undersong.technique.Ranking;
import undersong.technique.Technique;
import undersong.technique.Texts;
import undersong.technique.plain.PlainVersion;
import undersong.time.Span;

/** Findings and verdicts as the page shows them: those worth most first, in the program's words. */
final class FindingView {
  private static final Texts TEXTS = Texts.in(Locale.ENGLISH);

  private FindingView() {}

  static ArrayNode print(List<Ranking.Ranked> ranked, Reading reading) {
    return Json.array(ranked, one -> group(one, reading));
  }

  /** A technique by its id, its head and its name. */
  static ObjectNode named(Technique technique) {
    return Json.object()
        .put("technique", technique.id())
        .put("kind", technique.kind().name().toLowerCase(Locale.ROOT))
        .put("name", TEXTS.name(technique));
  }

  /** What the catalogue calls the technique of this id. */
  static String name(String technique) {
    return TEXTS.name(Technique.named(technique));
  }

  private static ObjectNode group(Ranking.Ranked ranked, Reading reading) {
    FindingGroup group = ranked.group();
    Technique technique = group.technique();
    ObjectNode node =
        named(technique)
            .put("definition", TEXTS.definition(technique))
            .put("listen", TEXTS.whatToListenFor(technique))
            .put("try", TEXTS.howToTryIt(technique))
            .put("sketched", SketchMaker.known().contains(technique))
            .put("probability", Json.share(group.probability()))
            .put("worth", Json.share(ranked.worth()))
            .put("shareOfSongs", Json.share(ranked.share()))
            .put("yes", ranked.verdicts().yes())
            .put("no", ranked.verdicts().no());
    node.set("occurrences", Json.array(group.occurrences(), one -> occurrence(one, reading)));
    return node;
  }

  private static ObjectNode occurrence(Finding finding, Reading reading) {
    ObjectNode node =
        Json.over(finding.span())
            .put("probability", Json.share(finding.probability()))
            .put("strength", Json.share(finding.strength()))
            .put("summary", TEXTS.summary(finding));
    finding.bars().ifPresent(bars -> node.putArray("bars").add(bars.first()).add(bars.last()));
    if (PlainVersion.of(finding, reading).isPresent()) {
      node.put("plain", TEXTS.plain(finding.technique()));
    }
    node.set("evidence", Json.array(finding.evidence(), FindingView::evidence));
    ArrayNode under = node.putArray("under");
    finding.under().forEach(other -> under.add(TEXTS.name(other)));
    return node;
  }

  private static ObjectNode evidence(Evidence evidence) {
    ObjectNode node = Json.object();
    if (evidence instanceof Evidence.Heard heard) {
      node.put("kind", "heard");
      over(heard.span(), node);
    } else if (evidence instanceof Evidence.Measured measured) {
      node.put("kind", "measured")
          .put("quantity", TEXTS.say(measured.quantity()))
          .put("value", measured.value())
          .put("bound", measured.bound() == Evidence.Bound.AT_LEAST ? "at least" : "at most")
          .put("limit", measured.limit())
          .put("unit", measured.unit());
    } else if (evidence instanceof Evidence.Read read) {
      node.put("kind", "read").put("facet", read.facet().name()).put("value", read.value());
      over(read.span(), node);
    }
    return node.put("text", TEXTS.say(evidence));
  }

  private static void over(Span span, ObjectNode node) {
    node.setAll(Json.over(span));
  }

  static ObjectNode verdict(Verdict verdict) {
    return Json.over(verdict.span())
        .put("id", verdict.id())
        .put("technique", verdict.technique().id())
        .put("name", TEXTS.name(verdict.technique()))
        .put("answer", verdict.answer().name().toLowerCase(Locale.ROOT))
        .put("words", verdict.words())
        .put("author", verdict.author())
        .put("saidAt", verdict.saidAt().toString());
  }
}
