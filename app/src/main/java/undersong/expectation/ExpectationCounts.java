package undersong.expectation;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import undersong.reading.Reading;

/** What followed what in songs heard before; each context counts once a song. Immutable. */
public final class ExpectationCounts {
  /** Nothing heard yet. */
  public static final ExpectationCounts NONE = of(List.of());

  private static final int LONGEST_CONTEXT = 4;

  private final int songs;
  private final Map<Viewpoint, ContextTree> trees;

  private ExpectationCounts(int songs, Map<Viewpoint, ContextTree> trees) {
    this.songs = songs;
    this.trees = trees;
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
        count(song, heard.get(i), heard.subList(0, i), LONGEST_CONTEXT);
      }
      song.forEach((viewpoint, tree) -> trees.get(viewpoint).addAll(tree, 1));
    }
    return new ExpectationCounts(songs, trees);
  }

  /** These and the other's together: open charts and a listener's own shelf. */
  public ExpectationCounts plus(ExpectationCounts other) {
    Map<Viewpoint, ContextTree> both = emptyTrees();
    both.forEach(
        (viewpoint, tree) -> {
          tree.addAll(trees.get(viewpoint), Integer.MAX_VALUE);
          tree.addAll(other.trees.get(viewpoint), Integer.MAX_VALUE);
        });
    return new ExpectationCounts(songs + other.songs, both);
  }

  /** Songs counted. */
  public int songs() {
    return songs;
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

  static void count(
      Map<Viewpoint, ContextTree> trees, HeardChord heard, List<HeardChord> before, int longest) {
    for (Viewpoint viewpoint : Viewpoint.values()) {
      trees
          .get(viewpoint)
          .add(
              viewpoint.symbol(heard.chord(), heard.place()),
              viewpoint.context(heard.chord(), before),
              longest);
    }
  }
}
