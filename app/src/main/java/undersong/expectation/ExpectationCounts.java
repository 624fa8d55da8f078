package undersong.expectation;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Collection;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import undersong.reading.Reading;

/** What followed what in songs heard before; each context counts once a song. Immutable. */
public final class ExpectationCounts {
  /** Nothing heard yet. */
  public static final ExpectationCounts NONE = of(List.of());

  private static final int LONGEST_CONTEXT = 4;
  private static final String CHARTS = "charts.txt";

  private final int songs;
  private final Map<Viewpoint, ContextTree> trees;

  ExpectationCounts(int songs, Map<Viewpoint, ContextTree> trees) {
    this.songs = songs;
    this.trees = trees;
  }

  /**
   * Counts of open chord charts, as they come with the program: McGill Billboard (CC0) and RS200
   * (CC BY 4.0); the file says which songs. Reads it at every call.
   */
  public static ExpectationCounts ofCharts() {
    try (InputStream file =
        Objects.requireNonNull(
            ExpectationCounts.class.getResourceAsStream(CHARTS), "Resource " + CHARTS)) {
      return parse(new String(file.readAllBytes(), StandardCharsets.UTF_8).lines().toList());
    } catch (IOException cause) {
      throw new UncheckedIOException("The table of chord counts cannot be read.", cause);
    }
  }

  /**
   * Counts songs. Needs BEATS, METER, CHORDS and KEYS of each; a song without chords adds nothing.
   */
  public static ExpectationCounts of(Iterable<Reading> readings) {
    Map<Viewpoint, ContextTree> trees = emptyTrees();
    int songs = 0;
    for (Reading reading : readings) {
      List<HeardChord> heard = HeardChord.of(reading);
      songs += heard.isEmpty() ? 0 : 1;
      Map<Viewpoint, ContextTree> song = emptyTrees();
      for (int i = 0; i < heard.size(); i++) {
        HeardChord chord = heard.get(i);
        List<HeardChord> past = heard.subList(0, i);
        song.forEach(
            (viewpoint, tree) ->
                tree.add(
                    viewpoint.symbol(chord.chord(), chord),
                    viewpoint.context(chord.chord(), chord, past),
                    LONGEST_CONTEXT));
      }
      song.forEach((viewpoint, tree) -> trees.get(viewpoint).addAll(tree, 1));
    }
    return new ExpectationCounts(songs, trees);
  }

  /** These and the other's together: open charts and a listener's own shelf. */
  public ExpectationCounts plus(ExpectationCounts other) {
    return plus(List.of(other));
  }

  /** These and all the others' together. */
  public ExpectationCounts plus(Collection<ExpectationCounts> others) {
    Map<Viewpoint, ContextTree> all = copies();
    int counted = songs;
    for (ExpectationCounts other : others) {
      all.forEach((viewpoint, tree) -> tree.addAll(other.trees.get(viewpoint), Integer.MAX_VALUE));
      counted += other.songs;
    }
    return new ExpectationCounts(counted, all);
  }

  /** These without the long contexts that only one song knows: smaller, and nearly as good. */
  public ExpectationCounts pruned() {
    Map<Viewpoint, ContextTree> fewer = copies();
    fewer.values().forEach(ContextTree::prune);
    return new ExpectationCounts(songs, fewer);
  }

  private Map<Viewpoint, ContextTree> copies() {
    Map<Viewpoint, ContextTree> copies = emptyTrees();
    copies.forEach((viewpoint, tree) -> tree.addAll(trees.get(viewpoint), Integer.MAX_VALUE));
    return copies;
  }

  /** Songs counted. */
  public int songs() {
    return songs;
  }

  /** As text; {@link #parse} reads it back. */
  public List<String> print() {
    return CountsFile.print(songs, trees);
  }

  /** Reads printed counts; lines that begin with {@code #} are skipped. */
  public static ExpectationCounts parse(List<String> lines) {
    return CountsFile.parse(lines);
  }

  ContextTree tree(Viewpoint viewpoint) {
    return trees.get(viewpoint);
  }

  static Map<Viewpoint, ContextTree> emptyTrees() {
    Map<Viewpoint, ContextTree> trees = new EnumMap<>(Viewpoint.class);
    for (Viewpoint viewpoint : Viewpoint.values()) {
      trees.put(viewpoint, new ContextTree());
    }
    return trees;
  }
}
