package undersong.trend;

import java.util.Collection;
import java.util.List;
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
      return TrendWords.say("nothing", songs(all.of()), Trend.LEAST_SONGS);
    }
    String overall =
        TrendWords.say(
            "share",
            all.songs(),
            all.of(),
            TrendWords.say("between", 100 * all.low(), 100 * all.high()));
    return grouping == Grouping.YEAR || grouping == Grouping.DECADE
        ? overall + " " + inTime(groups, grouping, change)
        : overall;
  }

  private static String inTime(List<Group> groups, Grouping grouping, Optional<Difference> change) {
    if (change.isEmpty()) {
      String key = grouping == Grouping.YEAR ? "too-few.years" : "too-few.decades";
      return TrendWords.say(key, Trend.LEAST_SONGS);
    }
    List<Group> tellable = groups.stream().filter(Group::isTellable).toList();
    String first = tellable.get(0).name();
    String last = tellable.get(tellable.size() - 1).name();
    Difference by = change.get();
    return by.isTold()
        ? TrendWords.say(
            by.value() > 0 ? "more" : "less",
            last,
            first,
            100 * Math.abs(by.value()),
            100 * Math.min(Math.abs(by.low()), Math.abs(by.high())),
            100 * Math.max(Math.abs(by.low()), Math.abs(by.high())))
        : TrendWords.say("no-change", first, last);
  }

  private static String songs(int count) {
    return count == 1 ? TrendWords.say("songs.one") : TrendWords.say("songs.many", count);
  }
}
