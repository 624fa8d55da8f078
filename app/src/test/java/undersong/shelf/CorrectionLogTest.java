package undersong.shelf;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.Parameter;
import org.junit.jupiter.params.ParameterizedClass;
import org.junit.jupiter.params.provider.EnumSource;
import undersong.reading.Correction;
import undersong.reading.Provenance;
import undersong.reading.SampleCorrections;
import undersong.reading.SampleReadings;
import undersong.work.Trouble;

@ParameterizedClass
@EnumSource(Store.class)
class CorrectionLogTest {
  @Parameter Store store;
  private static final Optional<String> ANYBODY = Optional.empty();
  private static final Instant NOON = Instant.parse("2026-11-25T12:00:00.123Z");

  @TempDir Path folder;
  private Shelf shelf;
  private CorrectionLog log;
  private long song;

  @BeforeEach
  void open() {
    shelf = Shelf.open(store.fresh(folder));
    log = shelf.corrections();
    song = song(shelf, "hash");
  }

  @AfterEach
  void close() {
    shelf.close();
  }

  static long song(Shelf shelf, String hash) {
    return shelf
        .keep(
            new StudiedFile(hash, Path.of("/a.wav"), 24, Song.Words.NONE, Song.Words.NONE),
            SampleReadings.full(),
            List.of(),
            new Provenance("f", "e", Map.of()))
        .orElseThrow()
        .id();
  }

  @Test
  void keepsEveryKindInTheOrderSaid() {
    Step step = log.append(song, "Ada", NOON, SampleCorrections.ofEveryKind());
    assertThat(log.steps(song)).containsExactly(step);
    assertThat(step.author()).isEqualTo("Ada");
    assertThat(step.saidAt()).isEqualTo(NOON);
    assertThat(said()).isEqualTo(SampleCorrections.ofEveryKind());
    assertThat(log.inForce(song).entries()).isEqualTo(step.entries());
  }

  @Test
  void aBatchIsTakenBackAndBroughtBackWhole() {
    say(1);
    log.append(song, "me", NOON, List.of(beat(2), beat(3)));
    assertThat(log.undo(song, ANYBODY)).isPresent();
    assertThat(said()).containsExactly(beat(1));
    assertThat(log.undo(song, ANYBODY)).isPresent();
    assertThat(log.undo(song, ANYBODY)).isEmpty();
    assertThat(said()).isEmpty();
    assertThat(log.redo(song, ANYBODY)).isPresent();
    assertThat(said()).containsExactly(beat(1));
    assertThat(log.redo(song, ANYBODY)).isPresent();
    assertThat(log.redo(song, ANYBODY)).isEmpty();
    assertThat(said()).containsExactly(beat(1), beat(2), beat(3));
    assertThat(log.steps(song)).hasSize(2);
  }

  @Test
  void somethingNewEndsRedoButDeletesNothing() {
    Step first = say(1);
    log.undo(song, ANYBODY);
    say(2);
    assertThat(log.redo(song, ANYBODY)).isEmpty();
    assertThat(said()).containsExactly(beat(2));
    assertThat(log.steps(song)).hasSize(2);
    log.bringBack(song, first.id());
    assertThat(said()).containsExactly(beat(1), beat(2));
  }

  @Test
  void redoBringsBackWhatWasTakenBackLast() {
    say(1);
    Step second = say(2);
    say(3);
    log.takeBack(song, second.id());
    assertThat(said()).containsExactly(beat(1), beat(3));
    log.undo(song, ANYBODY);
    assertThat(said()).containsExactly(beat(1));
    log.redo(song, ANYBODY);
    assertThat(said()).containsExactly(beat(1), beat(3));
    log.redo(song, ANYBODY);
    assertThat(said()).containsExactly(beat(1), beat(2), beat(3));
  }

  @Test
  void whoSharesAShelfTakesBackTheirOwnWords() {
    log.append(song, "Ada", NOON, List.of(beat(1)));
    log.append(song, "Ben", NOON, List.of(beat(2)));
    assertThat(log.undo(song, Optional.of("Ada"))).isPresent();
    assertThat(said()).containsExactly(beat(2));
    assertThat(log.undo(song, Optional.of("Ada"))).isEmpty();
    assertThat(log.canRedo(song, Optional.of("Ben"))).isFalse();
    assertThat(log.redo(song, Optional.of("Ben"))).isEmpty();
    assertThat(log.redo(song, Optional.of("Ada"))).isPresent();
    assertThat(said()).containsExactly(beat(1), beat(2));
  }

  @Test
  void marksOutliveAReopening() {
    say(1);
    say(2);
    log.undo(song, ANYBODY);
    shelf.close();
    shelf = Shelf.open(shelf.place());
    log = shelf.corrections();
    assertThat(said()).containsExactly(beat(1));
    log.redo(song, ANYBODY);
    assertThat(said()).containsExactly(beat(1), beat(2));
  }

  @Test
  void songsDoNotMix() {
    long other = song(shelf, "other");
    say(1);
    assertThat(log.undo(other, ANYBODY)).isEmpty();
    assertThat(log.inForce(other).entries()).isEmpty();
    long step = log.steps(song).get(0).id();
    assertThatThrownBy(() -> log.takeBack(other, step)).isInstanceOf(Trouble.WrongUsage.class);
    assertThat(said()).containsExactly(beat(1));
  }

  @Test
  void refusesToTakeBackTwice() {
    long step = say(1).id();
    log.takeBack(song, step);
    assertThatThrownBy(() -> log.takeBack(song, step))
        .isInstanceOf(Trouble.WrongUsage.class)
        .hasMessageContaining("in force");
    assertThatThrownBy(() -> log.append(song, "me", NOON, List.of()))
        .isInstanceOf(Trouble.WrongUsage.class);
  }

  private Step say(int second) {
    return log.append(song, "me", NOON, List.of(beat(second)));
  }

  private static Correction beat(int second) {
    return new Correction.BeatAt(second);
  }

  private List<Correction> said() {
    return log.inForce(song).entries().stream().map(entry -> entry.correction()).toList();
  }
}
