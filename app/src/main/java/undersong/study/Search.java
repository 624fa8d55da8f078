package undersong.study;

import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.PriorityQueue;
import java.util.Set;
import undersong.search.ChordRow;
import undersong.search.Likeness;
import undersong.search.Places;
import undersong.search.Places.Place;
import undersong.search.QueryReader;
import undersong.search.Searched;
import undersong.search.Seeds;
import undersong.search.SongLines;
import undersong.search.Wanted;
import undersong.shelf.Origin;
import undersong.shelf.SavedSearch;
import undersong.shelf.Shelf;
import undersong.shelf.ShelfEntry;
import undersong.shelf.Song;
import undersong.technique.Technique;
import undersong.time.Span;
import undersong.work.Trouble;

/**
 * Looks for music on the shelf: by words and facts, techniques, chords, figures, and by example.
 */
public final class Search {
  private static final double LIKE_FROM = 0.3;
  private static final int MOST_ALIGNED = 400;

  private final Shelf shelf;
  private final CurrentReadings readings;
  private final Speaker speaker;
  private final InstantSource clock;

  Search(Shelf shelf, CurrentReadings readings, Speaker speaker, InstantSource clock) {
    this.shelf = shelf;
    this.readings = readings;
    this.speaker = speaker;
    this.clock = clock;
  }

  /**
   * A song that has what is looked for.
   *
   * @param places where; empty where only words and facts were asked for
   */
  public record Hit(ShelfEntry entry, List<Where> places) {}

  /**
   * @param what was looked for there, in the words of the question
   */
  public record Where(Place place, String what) {}

  /**
   * @param likeness 1 for a whole copy, transposed or not
   */
  public record Similar(ShelfEntry entry, Place place, double likeness) {}

  /** As {@link #find(String, Set)}, of what was heard and what is remembered; charts stay apart. */
  public List<Hit> find(String question) {
    return find(question, Set.of(Origin.RECORDING, Origin.MEMORY));
  }

  /**
   * Songs that have all of it, by number. Throws {@link Trouble.WrongUsage} naming the wrong word.
   */
  public List<Hit> find(String question, Set<Origin> origins) {
    Wanted wanted;
    try {
      wanted = QueryReader.read(question);
    } catch (IllegalArgumentException wrong) {
      throw new Trouble.WrongUsage(wrong.getMessage());
    }
    Map<Long, Searched> songs =
        wanted.hasPlaces() || !wanted.without().isEmpty() ? lines() : Map.of();
    ChordRow row = new ChordRow(wanted.chords(), wanted.round());
    // Songs are looked through one by one, by all processors; the order of the list stays.
    return shelf.songs().list(String.join(" ", wanted.words())).parallelStream()
        .filter(entry -> origins.contains(entry.song().origin()) && fits(entry, wanted))
        .flatMap(
            entry ->
                places(entry, wanted, row, songs).map(places -> new Hit(entry, places)).stream())
        .toList();
  }

  private static boolean fits(ShelfEntry entry, Wanted wanted) {
    Song song = entry.song();
    return (wanted.artist().isEmpty()
            || song.artist().orElse("").toLowerCase(Locale.ROOT).contains(wanted.artist()))
        && (wanted.key().isEmpty()
            || (" " + entry.key().toLowerCase(Locale.ROOT)).contains(keyWords(wanted.key())))
        && (wanted.meter().isEmpty() || wanted.meter().equals(entry.meter()))
        && wanted.bpm().map(range -> inside(range, entry.tempoBpm())).orElse(true)
        && wanted
            .years()
            .map(range -> song.year().filter(year -> inside(range, year)).isPresent())
            .orElse(true);
  }

  /** "d minor" is meant as d natural, harmonic or melodic minor; "minor" as any. */
  private static String keyWords(String key) {
    return key.isEmpty()
        ? ""
        : key.endsWith("minor") && key.length() > 5 ? " " + key.replace(" minor", " ") : key;
  }

  private static boolean inside(Wanted.Range range, double value) {
    return value >= range.from() - 0.5 && value <= range.to() + 0.5;
  }

  private static Optional<List<Where>> places(
      ShelfEntry entry, Wanted wanted, ChordRow row, Map<Long, Searched> songs) {
    Searched searched = songs.getOrDefault(entry.song().id(), Searched.NOTHING);
    SongLines song = searched.lines();
    List<Where> places = new ArrayList<>();
    for (Technique technique : wanted.without()) {
      if (searched.techniques().has(technique)) {
        return Optional.empty();
      }
    }
    for (Technique technique : wanted.with()) {
      if (!searched.techniques().has(technique)) {
        return Optional.empty();
      }
      searched
          .techniques()
          .of(technique)
          .forEach(span -> places.add(new Where(new Place(span, 0, 0), technique.id())));
    }
    if (!wanted.chords().isEmpty()) {
      List<Place> found = Places.chords(song, row);
      if (found.isEmpty()) {
        return Optional.empty();
      }
      found.forEach(place -> places.add(new Where(place, wanted.round() ? "loop" : "chords")));
    }
    if (wanted.figure().isPresent()) {
      List<Place> found = Places.figure(song, wanted.figure().get());
      if (found.isEmpty()) {
        return Optional.empty();
      }
      String part = wanted.figure().get().inBass() ? "bass" : "tune";
      found.forEach(place -> places.add(new Where(place, part)));
    }
    places.sort(Comparator.comparingDouble(where -> where.place().span().startSeconds()));
    return Optional.of(places);
  }

  /**
   * Songs with a stretch like one of this song, the likest first; other stretches of the song
   * itself are left out.
   */
  public List<Similar> like(long songId, Span span, int howMany) {
    Map<Long, Searched> songs = lines();
    SongLines example =
        Likeness.within(
            songs.getOrDefault(shelf.songs().get(songId).id(), Searched.NOTHING).lines(), span);
    if (example.chordLine().size() == 0 && example.tuneLine().size() < 4) {
      throw new Trouble.WrongUsage(
          "Between %.1f and %.1f s song %d has neither a chord nor four notes of a tune to go by."
              .formatted(span.startSeconds(), span.endSeconds(), songId));
    }
    record Scored(long song, Place place, double likeness) {}
    List<Scored> similar = new ArrayList<>();
    for (long candidate : candidates(example, songId, songs)) {
      Likeness.Like like = Likeness.of(example, songs.get(candidate).lines());
      if (like.score() >= LIKE_FROM && like.place().isPresent()) {
        similar.add(new Scored(candidate, like.place().get(), like.score()));
      }
    }
    return similar.stream()
        .sorted(Comparator.comparingDouble(one -> -one.likeness()))
        .limit(howMany)
        .map(one -> new Similar(shelf.songs().entry(one.song()), one.place(), one.likeness()))
        .toList();
  }

  /** The songs that share most short runs with the example; only these are worth aligning. */
  private static List<Long> candidates(SongLines example, long except, Map<Long, Searched> songs) {
    record Sharing(long song, int runs) {}
    Comparator<Sharing> least =
        Comparator.comparingInt(Sharing::runs)
            .thenComparing(Comparator.comparingLong(Sharing::song).reversed());
    Seeds.Example wanted = Seeds.of(example).asExample();
    PriorityQueue<Sharing> most = new PriorityQueue<>(least);
    songs.forEach(
        (id, song) -> {
          int shared = wanted.sharedWith(song.seeds());
          boolean full = most.size() == MOST_ALIGNED;
          // In order of numbers: of equals, those that came first stay.
          if (id != except && (!full || shared > most.peek().runs())) {
            if (full) {
              most.poll();
            }
            most.add(new Sharing(id, shared));
          }
        });
    return most.stream().sorted(least.reversed()).map(Sharing::song).toList();
  }

  /** Saved searches of every speaker, by name. */
  public List<SavedSearch> saved() {
    return shelf.search().saved();
  }

  /**
   * The question saved under a name: the speaker's own, else the only one of that name. Throws
   * {@link Trouble.NotOnShelf} where there is none and {@link Trouble.WrongUsage} where several
   * others have one.
   */
  public String remembered(String name) {
    List<SavedSearch> called = saved().stream().filter(one -> one.name().equals(name)).toList();
    if (called.isEmpty()) {
      throw new Trouble.NotOnShelf(
          "No question is kept as \"%s\"; there are %s."
              .formatted(name, saved().stream().map(SavedSearch::name).distinct().toList()));
    }
    return called.stream()
        .filter(one -> one.author().equals(speaker.name()))
        .findFirst()
        .or(() -> called.size() == 1 ? called.stream().findFirst() : Optional.empty())
        .map(SavedSearch::question)
        .orElseThrow(
            () ->
                new Trouble.WrongUsage(
                    "Several speakers keep a question as \"%s\": %s. Ask in one's name with --speaker."
                        .formatted(name, called.stream().map(SavedSearch::author).toList())));
  }

  /**
   * Saves a question of the speaker that can be understood; throws {@link Trouble.WrongUsage} where
   * it cannot.
   */
  public void save(String name, String question) {
    if (name.isBlank() || name.length() > 100) {
      throw new Trouble.WrongUsage("A saved search needs a name of 1 to 100 characters.");
    }
    try {
      QueryReader.read(question);
    } catch (IllegalArgumentException wrong) {
      throw new Trouble.WrongUsage(wrong.getMessage());
    }
    shelf.search().save(name.strip(), speaker.name(), question.strip(), clock.instant());
  }

  /** Forgets a saved search of the speaker. */
  public void forget(String name) {
    if (!shelf.search().forget(name, speaker.name())) {
      throw new Trouble.NotOnShelf(
          "%s has no saved search called \"%s\".".formatted(speaker.name(), name));
    }
  }

  /** What a song holds, to be searched and compared. */
  SongLines lines(long songId) {
    return lines().getOrDefault(songId, Searched.NOTHING).lines();
  }

  private Map<Long, Searched> lines() {
    for (long song : shelf.search().missing()) {
      readings.latest(shelf.songs().get(song)).ifPresent(shelf.search()::keep);
    }
    return shelf.search().all();
  }
}
