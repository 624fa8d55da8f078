package undersong.trend;

import java.util.List;
import java.util.Optional;

/**
 * How often one thing occurs, group by group.
 *
 * @param words what was counted, for people
 * @param all over every song looked at
 * @param groups in order of their names (years and decades rise)
 * @param ungrouped songs that say no year or artist, and stand in no group
 * @param change last tellable group against the first, for years and decades; empty where fewer
 *     than two groups hold {@value #LEAST_SONGS} songs, or for other groupings
 * @param said what may be said of it, in a sentence or two
 */
public record Trend(
    String words,
    Grouping grouping,
    Share all,
    List<Group> groups,
    int ungrouped,
    Optional<Difference> change,
    String said) {
  /** A group of fewer songs is shown, and nothing is said of it. */
  public static final int LEAST_SONGS = 5;

  public Trend {
    groups = List.copyOf(groups);
  }

  /** By what songs are put together. */
  public enum Grouping {
    YEAR,
    DECADE,
    ARTIST,
    ORIGIN
  }

  /**
   * Songs of one year, decade, artist or origin.
   *
   * @param songIds those that have it, at most {@value #LISTED}
   */
  public record Group(String name, Share share, List<Long> songIds) {
    static final int LISTED = 50;

    public Group {
      songIds = List.copyOf(songIds.subList(0, Math.min(LISTED, songIds.size())));
    }

    /** Whether it holds enough songs for anything to be said. */
    public boolean isTellable() {
      return share.of() >= LEAST_SONGS;
    }
  }
}
