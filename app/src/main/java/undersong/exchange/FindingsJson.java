package undersong.exchange;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import undersong.technique.Evidence;
import undersong.technique.Finding;
import undersong.technique.Technique;
import undersong.technique.Texts;
import undersong.time.Span;

/**
 * Findings as a JSON list, one object per occurrence, by their start: technique, start, end, bars
 * (null where there is no pulse), confidence (the calibrated probability), group, summary, evidence
 * and, where less specific names fit the same notes, {@code under}.
 */
public final class FindingsJson {
  /** Findings less probable than this are left out unless all are asked for. */
  public static final double TOLD_FROM = 0.5;

  private static final ObjectMapper JSON = new ObjectMapper();

  private FindingsJson() {}

  /** Findings in the words of a language, ending in a line break; less probable ones as well. */
  public static String print(List<Finding> findings, Texts texts) {
    ArrayNode rows = JSON.createArrayNode();
    findings.forEach(finding -> rows.add(row(finding, texts)));
    try {
      return JSON.writerWithDefaultPrettyPrinter().writeValueAsString(rows) + "\n";
    } catch (JsonProcessingException impossible) {
      throw new AssertionError("A tree of plain values can always be written.", impossible);
    }
  }

  private static ObjectNode row(Finding finding, Texts texts) {
    ObjectNode row = JSON.createObjectNode();
    row.put("technique", finding.technique().id());
    times(row, finding.span());
    finding
        .bars()
        .ifPresentOrElse(
            bars -> row.putArray("bars").add(bars.first()).add(bars.last()),
            () -> row.putNull("bars"));
    row.put("confidence", rounded(finding.probability(), 1000));
    row.put("group", finding.group());
    row.put("summary", texts.summary(finding));
    ArrayNode evidence = row.putArray("evidence");
    finding.evidence().forEach(piece -> evidence.add(piece(piece, texts)));
    if (!finding.under().isEmpty()) {
      ArrayNode under = row.putArray("under");
      finding.under().stream().map(Technique::id).forEach(under::add);
    }
    return row;
  }

  private static ObjectNode piece(Evidence evidence, Texts texts) {
    ObjectNode piece = JSON.createObjectNode();
    if (evidence instanceof Evidence.Heard heard) {
      piece.put("kind", "heard");
      times(piece, heard.span());
    } else if (evidence instanceof Evidence.Measured measured) {
      piece.put("kind", "measured");
      piece.put("quantity", texts.say(measured.quantity()));
      piece.put("value", rounded(measured.value(), 10_000));
      piece.put("limit", rounded(measured.limit(), 10_000));
      piece.put("bound", measured.bound() == Evidence.Bound.AT_LEAST ? "at least" : "at most");
      piece.put("unit", measured.unit());
    } else if (evidence instanceof Evidence.Read read) {
      piece.put("kind", "read");
      piece.put("facet", read.facet().name());
      piece.put("value", read.value());
      times(piece, read.span());
    }
    piece.put("text", texts.say(evidence));
    return piece;
  }

  private static void times(ObjectNode node, Span span) {
    node.put("start", rounded(span.startSeconds(), 1000));
    node.put("end", rounded(span.endSeconds(), 1000));
  }

  private static double rounded(double value, double parts) {
    return Math.rint(value * parts) / parts;
  }
}
