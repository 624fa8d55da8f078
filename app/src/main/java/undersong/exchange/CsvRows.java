package undersong.exchange;

import java.util.ArrayList;
import java.util.List;

/**
 * Comma-separated values as RFC 4180 describes them: quoted fields may hold commas, quotes written
 * twice and line ends. Semicolons or tabs separate as well where the first line has them and no
 * comma, as spreadsheets of some countries write them.
 */
final class CsvRows {
  private CsvRows() {}

  /**
   * One row of a table.
   *
   * @param line where it begins, from 1
   */
  record Row(int line, List<String> fields) {
    Row {
      fields = List.copyOf(fields);
    }
  }

  /** Rows with anything in them; none of an empty text. Throws where a quote stays open. */
  static List<Row> of(String text) {
    String plain = text.startsWith("\uFEFF") ? text.substring(1) : text;
    char separator = separator(plain);
    List<Row> rows = new ArrayList<>();
    List<String> fields = new ArrayList<>();
    StringBuilder field = new StringBuilder();
    boolean quoted = false;
    int line = 1;
    int rowLine = 1;
    for (int i = 0; i < plain.length(); i++) {
      char c = plain.charAt(i);
      line += c == '\n' ? 1 : 0;
      if (quoted) {
        if (c != '"') {
          field.append(c);
        } else if (i + 1 < plain.length() && plain.charAt(i + 1) == '"') {
          field.append(plain.charAt(++i));
        } else {
          quoted = false;
        }
      } else if (c == '"' && field.toString().isBlank()) {
        field.setLength(0);
        quoted = true;
      } else if (c == separator) {
        end(fields, field);
      } else if (c == '\n') {
        end(fields, field);
        add(rows, rowLine, fields);
        rowLine = line;
      } else if (c != '\r') {
        field.append(c);
      }
    }
    if (quoted) {
      throw new IllegalArgumentException(
          "Line %d opens a quote that is never closed.".formatted(rowLine));
    }
    end(fields, field);
    add(rows, rowLine, fields);
    return rows;
  }

  private static char separator(String text) {
    String first = text.lines().findFirst().orElse("");
    if (first.indexOf(',') >= 0) {
      return ',';
    }
    return first.indexOf('\t') >= 0 ? '\t' : first.indexOf(';') >= 0 ? ';' : ',';
  }

  private static void end(List<String> fields, StringBuilder field) {
    fields.add(field.toString().strip());
    field.setLength(0);
  }

  private static void add(List<Row> rows, int line, List<String> fields) {
    if (fields.stream().anyMatch(field -> !field.isEmpty())) {
      rows.add(new Row(line, fields));
    }
    fields.clear();
  }
}
