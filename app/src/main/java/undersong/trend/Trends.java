package undersong.trend;

import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import undersong.trend.Trend.Group;
import undersong.trend.Trend.Grouping;

/** Counts songs group by group. <b>Cost:</b> O(songs). */
public final class Trends {
  private Trends() {}

  /** How often a thing occurs; with no songs nothing is said. */
  public static Trend of(Collection<CountedSong> songs, Counted what, Grouping grouping) {
    Map<String, List<CountedSong>> grouped =
        songs.stream()
            .filter(song -> name(song, grouping).isPresent())
            .collect(
                Collectors.groupingBy(
                    song -> name(song, grouping).orElseThrow(), TreeMap::new, Collectors.toList()));
    List<Group> groups =
        grouped.entrySet().stream()
            .map(entry -> group(entry.getKey(), entry.getValue(), what))
            .toList();
    Share all = share(songs, what);
    int ungrouped = songs.size() - groups.stream().mapToInt(group -> group.share().of()).sum();
    Optional<Difference> change = change(groups, grouping);
    return new Trend(
        what.words(),
        grouping,
        all,
        groups,
        ungrouped,
        change,
        said(all, groups, grouping, change));
  }

  private static Optional<String> name(CountedSong song, Grouping grouping) {
    return switch (grouping) {
      case YEAR -> song.year().map(String::valueOf);
      case DECADE -> song.year().map(year -> year / 10 * 10 + "s");
      case ARTIST -> song.artist();
      case ORIGIN -> Optional.of(song.origin());
    };
  }

  private static Group group(String name, List<CountedSong> songs, Counted what) {
    return new Group(
        name, share(songs, what), songs.stream().filter(what.in()).map(CountedSong::id).toList());
  }

  private static Share share(Collection<CountedSong> songs, Counted what) {
    return new Share((int) songs.stream().filter(what.in()).count(), songs.size());
  }

  private static Optional<Difference> change(List<Group> groups, Grouping grouping) {
    List<Group> tellable = groups.stream().filter(Group::isTellable).toList();
    boolean inTime = grouping == Grouping.YEAR || grouping == Grouping.DECADE;
    return inTime && tellable.size() >= 2
        ? Optional.of(
            Difference.between(tellable.get(tellable.size() - 1).share(), tellable.get(0).share()))
        : Optional.empty();
  }

  private static String said(
      Share all, List<Group> groups, Grouping grouping, Optional<Difference> change) {
    if (all.of() < Trend.LEAST_SONGS) {
      return "Nothing can be said: %s, and %d are needed."
          .formatted(songs(all.of()) + " of this kind", Trend.LEAST_SONGS);
    }
    String overall =
        String.format(
            Locale.ROOT,
            "In %d of %d songs (%s).",
            all.songs(),
            all.of(),
            between(all.low(), all.high()));
    if (grouping != Grouping.YEAR && grouping != Grouping.DECADE) {
      return overall;
    }
    if (change.isEmpty()) {
      return overall
          + " Whether it grows more common cannot be said: fewer than two %s hold %d songs or more."
              .formatted(grouping == Grouping.YEAR ? "years" : "decades", Trend.LEAST_SONGS);
    }
    List<Group> tellable = groups.stream().filter(Group::isTellable).toList();
    String first = tellable.get(0).name();
    String last = tellable.get(tellable.size() - 1).name();
    Difference by = change.get();
    if (!by.isTold()) {
      return overall
          + " Between %s and %s no change can be told; chance alone may do as much."
              .formatted(first, last);
    }
    return overall
        + String.format(
            Locale.ROOT,
            " %s in %s than in %s, by %.0f points (%.0f to %.0f).",
            by.value() > 0 ? "More common" : "Rarer",
            last,
            first,
            100 * Math.abs(by.value()),
            100 * Math.min(Math.abs(by.low()), Math.abs(by.high())),
            100 * Math.max(Math.abs(by.low()), Math.abs(by.high())));
  }

  private static String between(double low, double high) {
    return String.format(Locale.ROOT, "between %.0f and %.0f %%", 100 * low, 100 * high);
  }

  private static String songs(int count) {
    return count == 1 ? "there is 1 song" : "there are " + count + " songs";
  }
}
