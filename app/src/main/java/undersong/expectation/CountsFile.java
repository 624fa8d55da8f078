package undersong.expectation;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Counts as text: {@code #} begins a remark; {@code songs N}; then for each viewpoint its name and
 * its contexts depth first, each as depth, nearest-first symbol, and what followed how often.
 */
final class CountsFile {
  private CountsFile() {}

  static List<String> print(int songs, Map<Viewpoint, ContextTree> trees) {
    List<String> lines = new ArrayList<>();
    lines.add("songs " + songs);
    trees.forEach(
        (viewpoint, tree) -> {
          lines.add(viewpoint.name());
          print(0, 0, tree, lines);
        });
    return lines;
  }

  private static void print(int depth, int symbol, ContextTree node, List<String> lines) {
    StringBuilder line = new StringBuilder().append(depth).append(' ').append(symbol);
    new TreeMap<>(node.counted())
        .forEach((s, n) -> line.append(' ').append(s).append(':').append(n));
    lines.add(line.toString());
    new TreeMap<>(node.longer()).forEach((s, longer) -> print(depth + 1, s, longer, lines));
  }

  /** Reads what {@link #print} wrote; throws on anything else, naming the line. */
  static ExpectationCounts parse(List<String> lines) {
    int songs = 0;
    Map<Viewpoint, ContextTree> trees = ExpectationCounts.emptyTrees();
    Map<Integer, ContextTree> path = new TreeMap<>();
    for (String line : lines) {
      if (line.startsWith("#") || line.isBlank()) {
        continue;
      }
      try {
        if (line.startsWith("songs ")) {
          songs = Integer.parseInt(line.substring(6));
        } else if (Character.isLetter(line.charAt(0))) {
          path.put(0, trees.get(Viewpoint.valueOf(line)));
        } else {
          context(line, path);
        }
      } catch (IllegalArgumentException | NullPointerException cause) {
        throw new IllegalArgumentException(
            "Line \"%s\" is no context of a table of counts.".formatted(line), cause);
      }
    }
    return new ExpectationCounts(songs, trees);
  }

  private static void context(String line, Map<Integer, ContextTree> path) {
    String[] words = line.split(" ", -1);
    int depth = Integer.parseInt(words[0]);
    ContextTree node = path.get(0);
    if (depth > 0) {
      node = path.get(depth - 1).deeper(Integer.parseInt(words[1]));
      path.put(depth, node);
    }
    for (int i = 2; i < words.length; i++) {
      int colon = words[i].indexOf(':');
      node.add(
          Integer.parseInt(words[i].substring(0, colon)),
          Integer.parseInt(words[i].substring(colon + 1)));
    }
  }
}
