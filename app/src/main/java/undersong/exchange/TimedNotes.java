package undersong.exchange;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import undersong.time.TimeCode;

/**
 * Reads notes a teacher wrote elsewhere: a table of times and words, or the open tags of a JAMS
 * file. The whole file is read, or none of it.
 *
 * <p>A table may head its columns {@code start}, {@code end}, {@code words}, in any order; without
 * heads a row is a time, then perhaps an end, then words. Times are seconds or {@code M:SS}.
 *
 * <p>Of JAMS the namespace {@code tag_open} is read; a row without duration is said of a moment.
 */
public final class TimedNotes {
  private static final ObjectMapper JSON = new ObjectMapper();

  private TimedNotes() {}

  /** Reads a table or JAMS, whichever it is; throws, naming line, value and rule. */
  public static List<TimedNote> read(String text) {
    List<TimedNote> notes = text.stripLeading().startsWith("{") ? jams(text) : csv(text);
    if (notes.isEmpty()) {
      throw new IllegalArgumentException(
          "There are no notes in this file: a table needs rows of a time and words, a JAMS file an"
              + " annotation \"tag_open\".");
    }
    return notes;
  }

  private static List<TimedNote> csv(String text) {
    List<CsvRows.Row> rows = CsvRows.of(text);
    Columns columns = rows.isEmpty() ? Columns.NONE : Columns.headed(rows.get(0).fields());
    List<TimedNote> notes = new ArrayList<>();
    for (CsvRows.Row row : rows.subList(columns.start() < 0 ? 0 : 1, rows.size())) {
      Columns here = columns.start() < 0 ? Columns.guessed(row.fields()) : columns;
      try {
        notes.add(here.note(row.fields()));
      } catch (IllegalArgumentException wrong) {
        throw new IllegalArgumentException(
            "Line %d: %s".formatted(row.line(), wrong.getMessage()), wrong);
      }
    }
    return notes;
  }

  private static List<TimedNote> jams(String text) {
    JsonNode root;
    try {
      root = JSON.readTree(text);
    } catch (JsonProcessingException cause) {
      throw new IllegalArgumentException(
          "This begins like JSON and is none (line %d)."
              .formatted(cause.getLocation() == null ? 1 : cause.getLocation().getLineNr()),
          cause);
    }
    List<TimedNote> notes = new ArrayList<>();
    for (JsonNode annotation : root.path("annotations")) {
      if (annotation.path("namespace").asText().equals("tag_open")) {
        for (JsonNode row : annotation.path("data")) {
          double start = row.path("time").asDouble(Double.NaN);
          double length = row.path("duration").asDouble(0);
          notes.add(
              new TimedNote(
                  start,
                  length > 0 ? OptionalDouble.of(start + length) : OptionalDouble.empty(),
                  row.path("value").asText().strip()));
        }
      }
    }
    return notes;
  }

  /**
   * Which column holds what.
   *
   * @param start -1 where the table has no heads
   * @param end -1 for none
   */
  private record Columns(int start, int end, int words) {
    static final Columns NONE = new Columns(-1, -1, -1);

    static Columns headed(List<String> fields) {
      List<String> names = fields.stream().map(name -> name.toLowerCase(Locale.ROOT)).toList();
      int start = first(names, "start", "time", "start_seconds", "startseconds", "begin", "at");
      int words = first(names, "words", "text", "note", "remark", "label", "value");
      if (start < 0 || words < 0) {
        return NONE;
      }
      return new Columns(start, first(names, "end", "end_seconds", "endseconds", "until"), words);
    }

    static Columns guessed(List<String> fields) {
      return fields.size() > 2 && (fields.get(1).isEmpty() || TimeCode.isTime(fields.get(1)))
          ? new Columns(0, 1, 2)
          : new Columns(0, -1, 1);
    }

    private static int first(List<String> names, String... wanted) {
      for (String name : wanted) {
        if (names.contains(name)) {
          return names.indexOf(name);
        }
      }
      return -1;
    }

    TimedNote note(List<String> fields) {
      String until = field(fields, end);
      return new TimedNote(
          TimeCode.seconds(field(fields, start)),
          until.isEmpty() ? OptionalDouble.empty() : OptionalDouble.of(TimeCode.seconds(until)),
          field(fields, words));
    }

    private static String field(List<String> fields, int column) {
      return column >= 0 && column < fields.size() ? fields.get(column) : "";
    }
  }
}
