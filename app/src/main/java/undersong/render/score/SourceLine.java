package undersong.render.score;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** One line of a score's text, with its number from 1. */
record SourceLine(int number, String text) {
  String firstWord() {
    return words().get(0);
  }

  List<String> words() {
    return Arrays.asList(text.split("\\s+", -1));
  }

  /** What follows the first word. */
  String rest() {
    return text.substring(firstWord().length()).strip();
  }

  /** This line without its first word. */
  SourceLine tail() {
    return new SourceLine(number, rest().isEmpty() ? "-" : rest());
  }

  /** Bars between bar lines; a line may open and close with one. */
  List<String> bars() {
    String inner = rest().replaceFirst("^\\|", "").replaceFirst("\\|$", "");
    return Arrays.stream(inner.split("\\|", -1)).map(String::strip).toList();
  }

  Map<String, String> pairs(List<String> words) {
    if (words.size() % 2 != 0) {
      throw wrong("settings come in pairs of name and value: %s", words);
    }
    Map<String, String> pairs = new LinkedHashMap<>();
    for (int i = 0; i < words.size(); i += 2) {
      if (pairs.put(words.get(i), words.get(i + 1)) != null) {
        throw wrong("\"%s\" is set twice", words.get(i));
      }
    }
    return pairs;
  }

  double number(String word) {
    try {
      return Double.parseDouble(word);
    } catch (NumberFormatException notANumber) {
      throw wrong("\"%s\" must be a number", word);
    }
  }

  @SuppressWarnings("AnnotateFormatMethod") // the annotation would need a library of its own
  ScoreException wrong(String message, Object... values) {
    return new ScoreException(number, message.formatted(values) + ".");
  }
}
