package undersong.search;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import undersong.render.DemoSongs;
import undersong.search.SongLines.ChordAt;
import undersong.search.SongLines.NoteAt;
import undersong.technique.Technique;
import undersong.theory.ChordQuality;
import undersong.theory.Key;
import undersong.theory.Numerals;
import undersong.theory.RomanNumeral;
import undersong.theory.ScaleDegree;
import undersong.time.Span;

/**
 * Questions and what they find, worked by hand; numerals as musicians write them (common practice).
 */
class SearchTest {
  private static final int[] LOOP = {0, 7, 9, 5}; // I V vi IV

  @Test
  void wordsFactsAndTechniquesAreToldApart() {
    Wanted wanted =
        QueryReader.read(
            "ferry by night crew in d minor in 3/4 at 90-120 from 1990 with key-lift without riff");
    assertThat(wanted.words()).containsExactly("ferry");
    assertThat(wanted.artist()).isEqualTo("night crew");
    assertThat(wanted.key()).isEqualTo("d minor");
    assertThat(wanted.meter()).isEqualTo("3/4");
    assertThat(wanted.bpm()).contains(new Wanted.Range(90, 120));
    assertThat(wanted.years()).contains(new Wanted.Range(1990, 1990));
    assertThat(wanted.with()).containsExactly(Technique.KEY_LIFT);
    assertThat(wanted.without()).containsExactly(Technique.RIFF);
  }

  @ParameterizedTest
  @CsvSource({
    "chords I foo, foo",
    "with sparkle, sparkle",
    "tune do ray, ray",
    "steps +2 up, up",
    "at fast, fast",
    "chords, chords",
    "rhythm 1 1, rhythm"
  })
  void theWordThatIsNotUnderstoodIsNamed(String question, String word) {
    assertThatThrownBy(() -> QueryReader.read(question))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining(word);
  }

  /** Whatever a page shows can be asked for, chords without third and foreign basses included. */
  @ParameterizedTest
  @EnumSource(ChordQuality.class)
  void everyNumeralThatIsPrintedCanBeAskedFor(ChordQuality quality) {
    Key key = Key.parse("C major");
    for (String root : List.of("1", "2", "b3", "4", "#4", "5", "b6", "7")) {
      for (String bass : List.of("1", "2", "b3", "3", "4", "5", "6", "b7")) {
        ScaleDegree degree = ScaleDegree.parse(root);
        ScaleDegree lowest = ScaleDegree.parse(bass);
        String printed =
            Numerals.print(new RomanNumeral(degree, quality, lowest, Optional.empty()), key);
        List<Wanted.ChordWanted> asked = QueryReader.read("loop I " + printed + ", V").chords();
        assertThat(asked).as(printed).hasSize(3);
        assertThat(asked.get(1).degree()).as(printed).hasValue(degree.semitones());
        if (degree.semitones() != lowest.semitones()) {
          assertThat(asked.get(1).bass()).as(printed).hasValue(lowest.semitones());
        }
      }
    }
    assertThat(QueryReader.read("chords 5(no 3rd) IV over 5").chords())
        .containsExactly(
            new Wanted.ChordWanted(
                OptionalInt.of(7), OptionalInt.empty(), Optional.of("5"), OptionalInt.empty()),
            new Wanted.ChordWanted(
                OptionalInt.of(5), OptionalInt.of(4), Optional.empty(), OptionalInt.of(7)));
  }

  @ParameterizedTest
  @CsvSource({
    "chords I V vi IV, 2",
    "chords 1 5 6 4, 2",
    "chords I ? vi, 2",
    "chords I v, 0",
    "chords I V7, 0",
    "chords I V6, 0",
    "chords IV I, 1",
    "loop vi IV I V, 2",
    "loop I V vi IV, 2",
    "chords i V, 0"
  })
  void chordsAreFoundWhereTheyFollowOneAnother(String question, int places) {
    Wanted wanted = QueryReader.read(question);
    assertThat(Places.chords(loopTwice(), wanted.chords(), wanted.round())).hasSize(places);
  }

  @Test
  void aFigureIsFoundBySyllableByStepAndWithItsRhythm() {
    SongLines song = tune(60, new int[] {0, 2, 4, 5, 7, 4, 0}, new double[] {1, 1, 0.5, 0.5, 1, 1});
    assertThat(figure(song, "tune mi fa sol")).hasSize(1);
    assertThat(figure(song, "tune 3 4 5")).hasSize(1);
    assertThat(figure(song, "steps +1 +2")).hasSize(1);
    assertThat(figure(song, "steps +2 +1")).hasSize(1);
    assertThat(figure(song, "tune mi fa sol rhythm 0.5 0.5")).hasSize(1);
    assertThat(figure(song, "tune mi fa sol rhythm 1 1")).isEmpty();
    assertThat(figure(song, "bass mi fa sol")).isEmpty();
    assertThat(figure(song, "tune do mi sol")).isEmpty();
  }

  @Test
  void linesComeBackFromTextAsTheyWere() {
    DemoSongs.all()
        .forEach(
            song -> {
              SongLines lines = SongLines.of(song.truth().reading());
              String text = lines.print();
              assertThat(SongLines.parse(text).print()).isEqualTo(text);
              assertThat(lines.tune()).isNotEmpty();
            });
    assertThat(SongLines.parse(SongLines.NONE.print())).isEqualTo(SongLines.NONE);
  }

  /**
   * Among two hundred random songs the transposed, slightly altered copy must come among the first
   * three.
   */
  @Test
  void theTransposedCopyIsTheLikest() {
    Random random = new Random(3);
    int amongThree = 0;
    int trials = 60;
    for (int trial = 0; trial < trials; trial++) {
      List<SongLines> songs = new ArrayList<>();
      for (int i = 0; i < 200; i++) {
        songs.add(anySong(random, 30));
      }
      int chosen = random.nextInt(200);
      SongLines example = Likeness.within(songs.get(chosen), new Span(8, 20));
      songs.set(chosen, moved(songs.get(chosen), random.nextInt(1, 12), random));
      double copy = Likeness.of(example, songs.get(chosen)).score();
      long better =
          songs.stream().filter(song -> Likeness.of(example, song).score() > copy).count();
      amongThree += better < 3 ? 1 : 0;
    }
    assertThat((double) amongThree / trials).isGreaterThanOrEqualTo(0.95);
  }

  private static List<Places.Place> figure(SongLines song, String question) {
    return Places.figure(song, QueryReader.read(question).figure().orElseThrow());
  }

  private static SongLines loopTwice() {
    List<ChordAt> chords = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      int degree = LOOP[i % 4];
      ChordQuality quality = degree == 9 ? ChordQuality.MINOR : ChordQuality.MAJOR;
      chords.add(new ChordAt(degree, quality, degree, 2 * i, 2 * i + 2, i + 1));
    }
    return new SongLines(chords, List.of(), List.of());
  }

  private static SongLines tune(int tonic, int[] degrees, double[] beats) {
    List<NoteAt> notes = new ArrayList<>();
    double at = 0;
    for (int i = 0; i < degrees.length; i++) {
      double gap = i == 0 ? 0 : beats[i - 1];
      at += gap / 2;
      notes.add(new NoteAt(degrees[i], tonic + degrees[i], gap, at, at + 0.4, 1));
    }
    return new SongLines(List.of(), notes, List.of());
  }

  private static SongLines anySong(Random random, int bars) {
    int[] scale = {0, 2, 4, 5, 7, 9, 11};
    List<ChordAt> chords = new ArrayList<>();
    List<NoteAt> notes = new ArrayList<>();
    for (int bar = 0; bar < bars; bar++) {
      int degree = scale[random.nextInt(6)];
      boolean minor = degree == 2 || degree == 4 || degree == 9;
      ChordQuality quality = minor ? ChordQuality.MINOR : ChordQuality.MAJOR;
      chords.add(new ChordAt(degree, quality, degree, 2 * bar, 2 * bar + 2, bar + 1));
      for (int i = 0; i < 4; i++) {
        int step = scale[random.nextInt(7)];
        double at = 2 * bar + 0.5 * i;
        notes.add(new NoteAt(step, 60 + step, 1, at, at + 0.45, bar + 1));
      }
    }
    return new SongLines(chords, notes, List.of());
  }

  /** In another key, one note in ten otherwise. */
  private static SongLines moved(SongLines song, int up, Random random) {
    List<NoteAt> notes =
        song.tune().stream()
            .map(
                note -> {
                  int other = random.nextInt(10) == 0 ? 2 : 0;
                  return new NoteAt(
                      (note.degree() + other) % 12,
                      note.midi() + up + other,
                      note.beats(),
                      note.startSeconds(),
                      note.endSeconds(),
                      note.bar());
                })
            .toList();
    return new SongLines(song.chords(), notes, List.of());
  }
}
