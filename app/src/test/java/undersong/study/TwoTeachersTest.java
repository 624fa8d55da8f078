package undersong.study;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.Parameter;
import org.junit.jupiter.params.ParameterizedClass;
import org.junit.jupiter.params.provider.EnumSource;
import undersong.reading.Correction;
import undersong.reading.Facet;
import undersong.shelf.Shelf;
import undersong.shelf.ShelfPlace;
import undersong.shelf.Step;
import undersong.shelf.Store;
import undersong.theory.LeadSheet;
import undersong.time.Span;
import undersong.work.Trouble;

/** Two teachers, each at a program of their own, correct the same song of one shelf. */
@ParameterizedClass
@EnumSource(Store.class)
class TwoTeachersTest {
  private static final int BARS = 12;

  @Parameter Store store;
  @TempDir Path folder;
  private Study ada;
  private Study ben;
  private long song;

  @BeforeEach
  void open() throws Exception {
    ShelfPlace place = store.fresh(folder);
    ada = open(place, "Ada");
    ben = open(Store.elsewhere(place, folder.resolve("ben")), "Ben");
    Path file = folder.resolve("low tide.wav");
    Files.writeString(file, "hash-of-low-tide");
    song = ada.study(file).song().id();
    // Each has the recording where they put it.
    ben.study(Files.copy(file, folder.resolve("the same.wav")));
  }

  private Study open(ShelfPlace place, String name) {
    Study study =
        new Study(
            Shelf.open(place),
            new FilesOfSilence(),
            new SaidEstimators().estimators(),
            new Renderings(folder.resolve("renderings-" + name), InstantSource.system()),
            InstantSource.system());
    study.speaker().speakAs(name);
    return study;
  }

  @AfterEach
  void close() {
    ada.close();
    ben.close();
  }

  private static Correction chord(int bar, String symbol) {
    return new Correction.ChordOver(new Span(2 * bar, 2 * bar + 1.75), LeadSheet.parse(symbol));
  }

  @Test
  void bothTalkAtOnceAndNothingIsLost() throws Exception {
    ExecutorService threads = Executors.newFixedThreadPool(4);
    List<Callable<Answer>> sayings = new ArrayList<>();
    for (int bar = 0; bar < BARS; bar++) {
      int here = bar;
      sayings.add(() -> (here % 2 == 0 ? ada : ben).correct(song, chord(here, "Ebm")));
      sayings.add(() -> (here % 2 == 0 ? ben : ada).correct(song, new Correction.BeatAt(here)));
    }
    for (Future<Answer> answer : threads.invokeAll(sayings)) {
      answer.get();
    }
    threads.shutdown();
    for (Study each : List.of(ada, ben)) {
      List<Step> steps = each.steps(song);
      assertThat(steps).hasSize(2 * BARS).allMatch(Step::inForce);
      assertThat(steps).filteredOn(step -> step.author().equals("Ada")).hasSize(BARS);
      assertThat(steps).filteredOn(step -> step.author().equals("Ben")).hasSize(BARS);
      assertThat(each.reading(song).stored().reading().get(Facet.CHORDS).spans())
          .filteredOn(chord -> LeadSheet.print(chord.symbol()).equals("Ebm"))
          .hasSize(BARS);
    }
  }

  @Test
  void whoeverSpeaksOfAnOlderReadingIsToldAndBothWordsCanStand() {
    int seen = ben.reading(song).stored().revision();
    ada.correct(song, chord(1, "Dm7"));
    assertThatThrownBy(() -> ben.correct(song, List.of(chord(1, "F")), "Ben", OptionalInt.of(seen)))
        .isInstanceOf(Trouble.MovedOn.class);
    assertThat(ben.steps(song)).extracting(Step::author).containsExactly("Ada");
    ben.correct(song, chord(1, "F"));
    assertThat(ada.steps(song)).extracting(Step::author).containsExactly("Ada", "Ben");
    assertThat(ada.steps(song)).allMatch(Step::inForce);
  }

  @Test
  void onAServerUndoTakesBackOnesOwnWord() {
    ada.correct(song, chord(1, "Dm7"));
    ben.correct(song, chord(2, "Em"));
    ada.undo(song);
    boolean shared = store == Store.SERVER;
    assertThat(ada.steps(song)).extracting(Step::inForce).containsExactly(!shared, shared);
    assertThat(ada.steps(song).stream().anyMatch(ada::isUndone)).isEqualTo(!shared);
  }

  @Test
  void aNameIsRememberedForTheShelfOnThisMachine() {
    assertThat(ada.speaker().name()).isEqualTo("Ada");
    ben.speaker().remember(" Benedict ");
    try (Study again = Study.on(ben.place())) {
      assertThat(again.speaker().name()).isEqualTo("Benedict");
      assertThat(again.speaker().isNamed()).isTrue();
    }
    assertThatThrownBy(() -> ben.speaker().remember("two\nlines"))
        .isInstanceOf(Trouble.WrongUsage.class);
    assertThat(ben.speaker().name()).isEqualTo("Benedict");
  }
}
