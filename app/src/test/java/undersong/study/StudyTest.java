package undersong.study;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.exchange.JamsReader;
import undersong.exchange.JamsWriter;
import undersong.exchange.SongFacts;
import undersong.reading.Correction;
import undersong.reading.Facet;
import undersong.reading.SampleReadings;
import undersong.shelf.Shelf;
import undersong.shelf.Song;
import undersong.shelf.Verdict;
import undersong.technique.Finding;
import undersong.theory.ChordSymbol;
import undersong.theory.LeadSheet;
import undersong.time.Span;
import undersong.work.Cancellation;
import undersong.work.Progress;
import undersong.work.Trouble;

class StudyTest {
  private static final Instant NOON = Instant.parse("2026-11-25T12:00:00Z");
  private static final Span SECOND_BAR = new Span(2, 4);

  @TempDir Path folder;
  private final FilesOfSilence source = new FilesOfSilence();
  private final SaidEstimators estimators = new SaidEstimators();
  private Study study;
  private Path file;

  @BeforeEach
  void open() throws Exception {
    study = openStudy();
    file = folder.resolve("low tide.wav");
    Files.writeString(file, "hash-of-low-tide");
  }

  @AfterEach
  void close() {
    study.close();
  }

  private Study openStudy() {
    return new Study(
        Shelf.open(folder.resolve("shelf.db")),
        source,
        estimators.estimators(),
        new Renderings(folder.resolve("renderings"), InstantSource.fixed(NOON)),
        InstantSource.fixed(NOON));
  }

  @Test
  void putsWhatItHearsOnTheShelf() {
    Studied studied = study.study(file);
    assertThat(studied.stored().reading()).isEqualTo(SampleReadings.full());
    assertThat(studied.stored().revision()).isEqualTo(1);
    assertThat(studied.stored().provenance().featureVersion()).isEqualTo("silence-1");
    assertThat(studied.stored().provenance().estimatorVersion()).isEqualTo("said");
    assertThat(studied.stored().provenance().facetMilliseconds())
        .containsOnlyKeys(Facet.IN_ORDER.stream().map(Facet::name).toList());
    assertThat(study.song("low tide")).isEqualTo(studied.song());
  }

  @Test
  void aRecordingIsCopiedBesideTheShelfWhereSomebodyAsks() throws Exception {
    Path copy = study.copied(file, new Cancellation());
    assertThat(copy).startsWith(folder.resolve("copies")).hasSameBinaryContentAs(file);
    assertThat(copy.getFileName()).hasToString("low tide.wav");
    long song = study.study(copy).song().id();
    Files.delete(file);
    assertThat(study.song(song).path()).isEqualTo(copy);
    assertThat(study.copied(copy, new Cancellation())).isEqualTo(copy);
    assertThat(study.correct(song, chord(SECOND_BAR, "Dm7")).changes()).isNotEmpty();
  }

  @Test
  void aCorrectionStandsAndSaysWhatItChanged() {
    long song = study.study(file).song().id();
    Answer answer = study.correct(song, chord(SECOND_BAR, "Dm7"));
    assertThat(chordAt(song, 3)).isEqualTo("Dm7");
    assertThat(answer.reading().revision()).isEqualTo(2);
    assertThat(answer.changes())
        .containsExactly(
            new FacetChange(
                Facet.CHORDS,
                List.of(new Stretch(SECOND_BAR, "F")),
                List.of(new Stretch(SECOND_BAR, "Dm7"))));
    assertThat(answer.unplaced()).isEmpty();
  }

  @Test
  void whatIsRehearsedIsNotKept() {
    Studied studied = study.study(file);
    long song = studied.song().id();
    study.correct(song, chord(SECOND_BAR, "Dm7"));
    var before = study.reading(song).stored();
    Answer answer = study.rehearse(song, 0).orElseThrow();
    assertThat(answer.changes()).isNotEmpty();
    assertThat(answer.reading().reading()).isNotEqualTo(before.reading());
    assertThat(study.reading(song).stored()).isEqualTo(before);
    assertThat(study.steps(song)).hasSize(1);
    assertThat(study.lastChange(song).orElseThrow().revision()).isEqualTo(before.revision());
    study.close();
    study = openStudy();
    assertThat(study.reading(song).stored()).isEqualTo(before);
  }

  @Test
  void onlyWhatHangsOnACorrectionRunsAgain() {
    long song = study.study(file).song().id();
    estimators.runs.set(0);
    study.correct(song, chord(SECOND_BAR, "Dm7"));
    // Chords, then keys, harmony, repeats and motifs, which read them; these come out the same, so
    // roles do not run.
    assertThat(estimators.runs).hasValue(5);
  }

  @Test
  void theNewestOfTwoCorrectionsWins() {
    long song = study.study(file).song().id();
    study.correct(song, chord(SECOND_BAR, "Dm7"));
    study.correct(song, chord(SECOND_BAR, "Bdim"));
    assertThat(chordAt(song, 3)).isEqualTo("Bdim");
    study.undo(song);
    assertThat(chordAt(song, 3)).isEqualTo("Dm7");
  }

  @Test
  void stepsAreUndoneAndRedoneAcrossARestart() {
    long song = study.study(file).song().id();
    study.correct(
        song, List.of(chord(SECOND_BAR, "Dm7"), chord(new Span(4, 6), "Em")), "a colleague");
    study.correct(song, chord(new Span(8, 10), "E7"));
    study.undo(song);
    study.close();
    study = openStudy();
    assertThat(chordAt(song, 9)).isEqualTo("Am");
    assertThat(chordAt(song, 3)).isEqualTo("Dm7");
    study.undo(song);
    assertThat(study.reading(song).stored().reading()).isEqualTo(SampleReadings.full());
    assertThatThrownBy(() -> study.undo(song)).isInstanceOf(Trouble.WrongUsage.class);
    study.redo(song);
    study.redo(song);
    assertThat(chordAt(song, 3)).isEqualTo("Dm7");
    assertThat(chordAt(song, 5)).isEqualTo("Em");
    assertThat(chordAt(song, 9)).isEqualTo("E7");
    assertThatThrownBy(() -> study.redo(song)).isInstanceOf(Trouble.WrongUsage.class);
    assertThat(study.steps(song)).hasSize(2);
    assertThat(study.steps(song).get(0).author()).isEqualTo("a colleague");
    assertThat(study.steps(song).get(0).saidAt()).isEqualTo(NOON);
  }

  @Test
  void whatFitsNothingIsListedAndNotLost() {
    long song = study.study(file).song().id();
    Correction sliver = chord(new Span(2, 2.1), "Dm7");
    assertThat(study.correct(song, sliver).unplaced()).containsExactly(sliver);
    assertThat(study.reading(song).stored().reading().unplaced()).containsExactly(sliver);
  }

  @Test
  void refusesWhatLiesOutsideTheSongOrOnNoSong() {
    long song = study.study(file).song().id();
    assertThatThrownBy(() -> study.correct(song, new Correction.BeatAt(25)))
        .isInstanceOf(Trouble.WrongUsage.class)
        .hasMessageContaining("25.0 s")
        .hasMessageContaining("24.00 s");
    assertThatThrownBy(() -> study.correct(song + 1, new Correction.BeatAt(1)))
        .isInstanceOf(Trouble.NotOnShelf.class);
    assertThat(study.steps(song)).isEmpty();
  }

  @Test
  void aMovedFileIsTheSameSongWithAllThatWasSaid() throws Exception {
    long song = study.study(file).song().id();
    study.correct(song, chord(SECOND_BAR, "Dm7"));
    Path moved = Files.move(file, folder.resolve("renamed.wav"));
    Studied again =
        study.study(
            moved,
            new Song.Words(Optional.of("Low Tide"), Optional.empty(), Optional.empty()),
            Progress.SILENT,
            new Cancellation());
    assertThat(again.song().id()).isEqualTo(song);
    assertThat(again.song().path()).isEqualTo(moved);
    assertThat(again.song().title()).isEqualTo("Low Tide");
    assertThat(chordAt(song, 3)).isEqualTo("Dm7");
    assertThat(study.songs("")).hasSize(1);
  }

  @Test
  void whatWasSaidWithoutAnAnswerIsAnsweredAtTheNextLook() {
    long song = study.study(file).song().id();
    try (Shelf killed = Shelf.open(folder.resolve("shelf.db"))) {
      killed.corrections().append(song, "me", NOON, List.of(chord(SECOND_BAR, "Dm7")));
    }
    assertThat(chordAt(song, 3)).isEqualTo("Dm7");
  }

  @Test
  void twoStudiesOnOneShelfHeedEachOther() {
    long song = study.study(file).song().id();
    try (Study other = openStudy()) {
      other.correct(song, chord(SECOND_BAR, "Dm7"));
      study.correct(song, chord(new Span(4, 6), "Em"));
      for (Study each : List.of(study, other)) {
        var chords = each.reading(song).stored().reading().get(Facet.CHORDS);
        assertThat(LeadSheet.print(chords.chordAt(3).orElseThrow().symbol())).isEqualTo("Dm7");
        assertThat(LeadSheet.print(chords.chordAt(5).orElseThrow().symbol())).isEqualTo("Em");
      }
    }
  }

  @Test
  void manyThreadsCorrectOneSongAndNothingIsLost() throws Exception {
    long song = study.study(file).song().id();
    ExecutorService threads = Executors.newFixedThreadPool(4);
    List<Callable<Answer>> sayings = new ArrayList<>();
    for (int bar = 0; bar < 12; bar++) {
      Span span = new Span(2 * bar, 2 * bar + 1.75);
      sayings.add(() -> study.correct(song, chord(span, "Ebm")));
    }
    for (Future<Answer> answer : threads.invokeAll(sayings)) {
      assertThat(answer.get().changes()).hasSize(1);
    }
    threads.shutdown();
    assertThat(study.reading(song).stored().reading().get(Facet.CHORDS).spans())
        .allSatisfy(chord -> assertThat(LeadSheet.print(chord.symbol())).isEqualTo("Ebm"));
    assertThat(study.steps(song)).hasSize(12);
  }

  @Test
  void aNewerEstimatorHearsEverythingAgainUnderWhatWasSaid() {
    long song = study.study(file).song().id();
    study.correct(song, chord(SECOND_BAR, "Dm7"));
    study.close();
    estimators.runs.set(0);
    study =
        new Study(
            Shelf.open(folder.resolve("shelf.db")),
            source,
            estimators.estimators().version("said-2"),
            new Renderings(folder.resolve("renderings"), InstantSource.fixed(NOON)),
            InstantSource.fixed(NOON));
    assertThat(chordAt(song, 3)).isEqualTo("Dm7");
    assertThat(estimators.runs).hasValue(Facet.IN_ORDER.size());
    assertThat(study.reading(song).stored().provenance().estimatorVersion()).isEqualTo("said-2");
  }

  @Test
  void whereTheRecordingIsGoneTheOldReadingIsShownAndNothingIsSaidAgainstIt() throws Exception {
    long song = study.study(file).song().id();
    study.close();
    Files.delete(file);
    source.version = "silence-2";
    study = openStudy();
    assertThat(study.reading(song).stored().reading()).isEqualTo(SampleReadings.full());
    assertThatThrownBy(() -> study.correct(song, chord(SECOND_BAR, "Dm7")))
        .isInstanceOf(Trouble.UnreadableRecording.class);
    assertThat(study.steps(song)).isEmpty();
  }

  @Test
  void aFileThatHoldsOtherSoundIsNotTakenForTheSong() throws Exception {
    long song = study.study(file).song().id();
    study.close();
    Files.writeString(file, "hash-of-something-else");
    study = openStudy();
    assertThatThrownBy(() -> study.correct(song, chord(SECOND_BAR, "Dm7")))
        .isInstanceOf(Trouble.UnreadableRecording.class)
        .hasMessageContaining("low tide");
  }

  @Test
  void featuresAreMeasuredOnceHoweverOftenASongIsCorrected() {
    long song = study.study(file).song().id();
    source.measurings = 0;
    study.correct(song, chord(SECOND_BAR, "Dm7"));
    study.correct(song, chord(SECOND_BAR, "Em"));
    study.undo(song);
    assertThat(source.measurings).isLessThanOrEqualTo(1);
  }

  @Test
  void aStoppedStudyStoresNothing() {
    Cancellation cancellation = new Cancellation();
    Progress stopAtChords =
        (stage, share) -> {
          if (stage.equals("hearing chords")) {
            cancellation.cancel();
          }
        };
    assertThatThrownBy(() -> study.study(file, Song.Words.NONE, stopAtChords, cancellation))
        .isInstanceOf(Trouble.Cancelled.class);
    assertThat(study.songs("")).isEmpty();
  }

  @Test
  void whatIsSaidOfOneSectionIsOfferedForItsRepeatsTransposed() {
    long song = study.study(file).song().id();
    Correction said = chord(SECOND_BAR, "Dm7");
    study.correct(song, said);
    List<Offer> offers = study.offers(song, said);
    assertThat(offers).hasSize(1);
    Offer offer = offers.get(0);
    assertThat(offer.section().occurrence()).isEqualTo(2);
    assertThat(offer.correction()).isEqualTo(chord(new Span(18, 20), "Em7"));
    assertThat(offer.change().before()).containsExactly(new Stretch(new Span(18, 20), "G"));
    assertThat(chordAt(song, 19)).isEqualTo("G");
    study.correct(song, offer.correction());
    assertThat(chordAt(song, 19)).isEqualTo("Em7");
    assertThat(study.offers(song, said)).isEmpty();
  }

  @Test
  void nothingIsOfferedWhereNothingRepeatsOrThePlaceIsTheWholeSong() {
    long song = study.study(file).song().id();
    assertThat(study.offers(song, chord(new Span(10, 12), "Dm7"))).isEmpty();
    assertThat(study.offers(song, chord(new Span(0, 24), "Dm7"))).isEmpty();
    assertThat(study.offers(song, new Correction.TuningIs(3))).isEmpty();
  }

  @Test
  void aJamsFileIsOneStep() {
    long song = study.study(file).song().id();
    String jams = JamsWriter.print(SampleReadings.full(), SongFacts.UNKNOWN);
    List<Correction> said = JamsReader.read(jams).corrections();
    assertThat(said).hasSizeGreaterThan(12);
    study.correct(song, said, "a file");
    assertThat(study.steps(song)).hasSize(1);
    study.undo(song);
    assertThat(study.reading(song).stored().reading()).isEqualTo(SampleReadings.full());
  }

  @Test
  void findsTechniquesAnewWhenTheReadingChanges() {
    long song = study.study(file).song().id();
    assertThat(study.findings(song)).isEqualTo(study.findings(song));
    int before = study.findings(song).size();
    study.correct(song, chord(new Span(0, 24), "Am"));
    assertThat(study.findings(song)).hasSizeLessThan(before);
    study.undo(song);
    assertThat(study.findings(song)).hasSize(before);
  }

  @Test
  void ranksWithoutWhatAListenerRefused() {
    long song = study.study(file).song().id();
    var first = study.ranked(song).get(0).group();
    for (Finding finding : first.occurrences()) {
      study.notebook().judge(song, finding, Verdict.Answer.NO, "not here", "Ada");
    }
    assertThat(study.ranked(song)).noneMatch(ranked -> ranked.group().equals(first));
    assertThat(study.findings(song)).containsAll(first.occurrences());
    assertThat(study.notebook().taught().get(first.technique()).no())
        .isEqualTo(first.occurrences().size());
    study.notebook().resetRanking("Ada");
    assertThat(study.notebook().taught()).isEmpty();
    study
        .notebook()
        .verdicts(song)
        .forEach(said -> study.notebook().takeBackVerdict(song, said.id()));
    assertThat(study.ranked(song)).anyMatch(ranked -> ranked.group().equals(first));
  }

  private static Correction chord(Span span, String leadSheet) {
    ChordSymbol symbol = LeadSheet.parse(leadSheet);
    return new Correction.ChordOver(span, symbol);
  }

  private String chordAt(long song, double seconds) {
    var chords = study.reading(song).stored().reading().get(Facet.CHORDS);
    return LeadSheet.print(chords.chordAt(seconds).orElseThrow().symbol());
  }
}
