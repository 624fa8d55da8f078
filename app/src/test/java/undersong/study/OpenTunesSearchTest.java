package undersong.study;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.reading.Beats;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.KeyRegion;
import undersong.reading.Keys;
import undersong.reading.Melody;
import undersong.reading.NoteEvent;
import undersong.reading.Provenance;
import undersong.reading.Reading;
import undersong.shelf.Shelf;
import undersong.shelf.ShelfPlace;
import undersong.shelf.Song;
import undersong.shelf.StudiedFile;
import undersong.study.PrintedTunes.PrintedTune;
import undersong.theory.Key;
import undersong.time.BeatGrid;
import undersong.time.Span;

/**
 * Search for figures against tunes nobody here wrote: E. Foxley's Nottingham Music Database in the
 * cleaned ABC of github.com/jukedeck/nottingham-dataset. What a question must find is worked out
 * from the printed notes as text, by code that knows nothing of the program's lines and questions.
 */
class OpenTunesSearchTest {
  private static final int TUNES = 240;
  private static final int COPIES = 60;
  private static final int NOTES = 8;

  /** Degrees as a question names them: common practice, no source. */
  private static final List<String> DEGREES =
      List.of("1", "b2", "2", "b3", "3", "4", "#4", "5", "b6", "6", "b7", "7");

  @TempDir private static Path folder;
  private static final Map<String, PrintedTune> TUNES_BY_NAME = new LinkedHashMap<>();
  private static Study study;

  @BeforeAll
  static void load() throws IOException {
    String data = System.getenv("UNDERSONG_DATA");
    assumeTrue(data != null, "UNDERSONG_DATA is not set: search was not held against open tunes");
    Path set = Path.of(data, "nottingham");
    assumeTrue(
        Files.isDirectory(set), "Nottingham tunes are not there: search was not held against them");
    List<PrintedTune> tunes = PrintedTunes.read(set);
    assertThat(tunes).hasSizeGreaterThan(500);
    int every = tunes.size() / TUNES;
    for (int i = 0; i < TUNES; i++) {
      PrintedTune tune = tunes.get(i * every);
      TUNES_BY_NAME.put("tune-" + i, tune);
      if (i < COPIES) {
        TUNES_BY_NAME.put("copy-" + i, tune.up(1 + i % 11));
      }
    }
    Path file = folder.resolve("shelf.db");
    try (Shelf shelf = Shelf.open(ShelfPlace.named(file.toString()))) {
      TUNES_BY_NAME.forEach(
          (name, tune) ->
              shelf.keep(
                  new StudiedFile(
                      name,
                      folder.resolve(name + ".wav"),
                      300,
                      Song.Words.ofTags(name, "", 1900),
                      Song.Words.NONE),
                  reading(tune),
                  List.of(),
                  new Provenance("printed", "printed", Map.of())));
    }
    study = Study.on(file);
  }

  @AfterAll
  static void close() {
    if (study != null) {
      study.close();
    }
  }

  /** By its steps a figure is found in every tune that has it, at any pitch, and nowhere else. */
  @Test
  void figuresAreFoundByTheirStepsInEveryKey() {
    for (int i = 0; i < COPIES; i++) {
      String figure = steps(TUNES_BY_NAME.get("tune-" + i), figureAt(i));
      Set<String> found = found("steps " + figure);
      assertThat(found)
          .as(figure)
          .contains("tune-" + i, "copy-" + i)
          .isEqualTo(
              holding(tune -> (" " + steps(tune, all(tune)) + " ").contains(" " + figure + " ")));
    }
  }

  @Test
  void figuresAreFoundByTheirDegrees() {
    for (int i = 0; i < COPIES; i++) {
      String figure = degrees(TUNES_BY_NAME.get("tune-" + i), figureAt(i));
      Set<String> found = found("tune " + figure);
      assertThat(found)
          .as(figure)
          .contains("tune-" + i, "copy-" + i)
          .isEqualTo(
              holding(tune -> (" " + degrees(tune, all(tune)) + " ").contains(" " + figure + " ")));
    }
  }

  /** Three plain steps stand in many tunes; with a rhythm they stand in few. */
  @Test
  void aRhythmNarrowsWhatIsFound() {
    String figure = "+2 +2 +1";
    List<Double> lengths = List.of(1.0, 0.5, 0.5);
    Set<String> anyRhythm = found("steps " + figure);
    Set<String> withRhythm = found("steps " + figure + " rhythm 1 0.5 0.5");
    assertThat(anyRhythm)
        .isEqualTo(
            holding(tune -> (" " + steps(tune, all(tune)) + " ").contains(" " + figure + " ")));
    assertThat(withRhythm)
        .isNotEmpty()
        .isNotEqualTo(anyRhythm)
        .isEqualTo(
            holding(
                tune ->
                    IntStream.range(0, tune.notes().size() - 3)
                        .anyMatch(
                            at ->
                                steps(tune, List.of(at, at + 1, at + 2, at + 3)).equals(figure)
                                    && IntStream.range(0, 3)
                                        .allMatch(
                                            k -> tune.beatsBetween(at + k) == lengths.get(k)))));
  }

  /** Where a figure is told to be, it is printed. */
  @Test
  void placesAreThoseOfTheNotes() {
    PrintedTune tune = TUNES_BY_NAME.get("tune-7");
    List<Integer> at = figureAt(7);
    double from = seconds(tune, at.get(0));
    assertThat(study.search().find("steps " + steps(tune, at)))
        .filteredOn(hit -> hit.entry().song().contentHash().equals("tune-7"))
        .singleElement()
        .satisfies(
            hit ->
                assertThat(hit.places())
                    .anyMatch(
                        where -> Math.abs(where.place().span().startSeconds() - from) < 0.02));
  }

  /** Another figure of each tune: from its fifth note to its fourteenth on. */
  private static List<Integer> figureAt(int tune) {
    return IntStream.range(4 + tune % 10, 4 + tune % 10 + NOTES).boxed().toList();
  }

  private static List<Integer> all(PrintedTune tune) {
    return IntStream.range(0, tune.notes().size()).boxed().toList();
  }

  private static String steps(PrintedTune tune, List<Integer> places) {
    return IntStream.range(1, places.size())
        .map(i -> tune.midi(places.get(i)) - tune.midi(places.get(i - 1)))
        .mapToObj(step -> step < 0 ? String.valueOf(step) : "+" + step)
        .collect(Collectors.joining(" "));
  }

  private static String degrees(PrintedTune tune, List<Integer> places) {
    return places.stream()
        .map(place -> DEGREES.get(Math.floorMod(tune.midi(place) - tune.tonicPitchClass(), 12)))
        .collect(Collectors.joining(" "));
  }

  private static Set<String> found(String question) {
    return study.search().find(question).stream()
        .map(hit -> hit.entry().song().contentHash())
        .collect(Collectors.toCollection(TreeSet::new));
  }

  private static Set<String> holding(Predicate<PrintedTune> holds) {
    return TUNES_BY_NAME.entrySet().stream()
        .filter(one -> holds.test(one.getValue()))
        .map(Map.Entry::getKey)
        .collect(Collectors.toCollection(TreeSet::new));
  }

  private static double seconds(PrintedTune tune, int note) {
    return 0.5 * tune.notes().get(note).startBeat();
  }

  /** As if heard at 120 beats a minute. */
  private static Reading reading(PrintedTune tune) {
    List<NoteEvent> notes = new ArrayList<>();
    for (int i = 0; i < tune.notes().size(); i++) {
      double from = seconds(tune, i);
      notes.add(
          new NoteEvent(new Span(from, from + 0.5 * tune.notes().get(i).beats()), tune.midi(i), 1));
    }
    double end = notes.get(notes.size() - 1).span().endSeconds() + 1;
    BeatGrid grid =
        BeatGrid.of(IntStream.range(0, (int) (2 * end) + 1).mapToDouble(i -> 0.5 * i).toArray());
    Key key = Key.parse(tune.keyName());
    return Reading.empty(end)
        .with(Facet.BEATS, Derived.of(new Beats(grid, 2, 1, 1, List.of())))
        .with(
            Facet.KEYS,
            Derived.of(new Keys(List.of(new KeyRegion(new Span(0, end), key, 1, List.of())))))
        .with(Facet.MELODY, Derived.of(new Melody(notes)));
  }
}
