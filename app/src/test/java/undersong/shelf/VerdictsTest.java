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
import undersong.reading.Provenance;
import undersong.reading.SampleReadings;
import undersong.technique.Evidence;
import undersong.technique.Finding;
import undersong.technique.Ranking;
import undersong.technique.Sentence;
import undersong.technique.Technique;
import undersong.time.Span;
import undersong.work.Trouble;

@ParameterizedClass
@EnumSource(Store.class)
class VerdictsTest {
  @Parameter Store store;
  private static final Instant NOON = Instant.parse("2026-11-25T12:00:00Z");

  @TempDir Path folder;
  private Shelf shelf;
  private long song;

  @BeforeEach
  void open() {
    shelf = Shelf.open(store.fresh(folder));
    song = song("hash-1");
  }

  @AfterEach
  void close() {
    shelf.close();
  }

  private long song(String hash) {
    StudiedFile facts =
        new StudiedFile(
            hash,
            Path.of("/music/" + hash + ".wav"),
            24,
            new Song.Words(Optional.of(hash), Optional.empty(), Optional.empty()),
            Song.Words.NONE);
    return shelf
        .keep(facts, SampleReadings.full(), List.of(), new Provenance("f1", "e1", Map.of()))
        .orElseThrow()
        .id();
  }

  private Verdict say(Technique technique, Verdict.Answer answer, String words) {
    return shelf.verdicts().say(song, technique, new Span(4, 8), answer, words, "Ada", NOON);
  }

  private static Finding finding(Technique technique, double start, double end, double sure) {
    Span span = new Span(start, end);
    Sentence words = Sentence.of("kind.theory");
    return new Finding(
        technique,
        span,
        Optional.empty(),
        sure,
        "here",
        words,
        List.of(new Evidence.Heard(span, words)));
  }

  @Test
  void keepsWhoSaidWhatWhen() {
    Verdict yes = say(Technique.RIFF, Verdict.Answer.YES, "");
    Verdict own = say(Technique.ECHO, Verdict.Answer.WORDS, "a spring, not a tape");
    assertThat(shelf.verdicts().of(song)).containsExactly(yes, own);
    assertThat(own.author()).isEqualTo("Ada");
    assertThat(own.saidAt()).isEqualTo(NOON);
    assertThat(shelf.verdicts().of(song("hash-2"))).isEmpty();
  }

  @Test
  void outlivesTheProgram() {
    Verdict no = say(Technique.RIFF, Verdict.Answer.NO, "only twice");
    shelf.close();
    shelf = Shelf.open(shelf.place());
    assertThat(shelf.verdicts().of(song)).containsExactly(no);
  }

  @Test
  void holdsForWhatIsFoundAgainNearby() {
    Verdict no = say(Technique.RIFF, Verdict.Answer.NO, "");
    assertThat(no.isOn(finding(Technique.RIFF, 4.2, 8.4, 0.9))).isTrue();
    assertThat(no.isOn(finding(Technique.RIFF, 8, 12, 0.9))).isFalse();
    assertThat(no.isOn(finding(Technique.ECHO, 4, 8, 0.9))).isFalse();
  }

  @Test
  void canBeTakenBackOnce() {
    Verdict yes = say(Technique.RIFF, Verdict.Answer.YES, "");
    shelf.verdicts().takeBack(song, yes.id());
    assertThat(shelf.verdicts().of(song)).isEmpty();
    assertThat(shelf.verdicts().taught().values()).allMatch(new Ranking.Verdicts(0, 0)::equals);
    assertThatThrownBy(() -> shelf.verdicts().takeBack(song, yes.id()))
        .isInstanceOf(Trouble.WrongUsage.class)
        .hasMessageContaining("in force");
  }

  @Test
  void teachesTheRankingUntilItIsReset() {
    say(Technique.RIFF, Verdict.Answer.YES, "");
    say(Technique.RIFF, Verdict.Answer.NO, "");
    say(Technique.RIFF, Verdict.Answer.YES, "");
    say(Technique.ECHO, Verdict.Answer.WORDS, "hm");
    assertThat(shelf.verdicts().taught().get(Technique.RIFF)).isEqualTo(new Ranking.Verdicts(2, 1));
    assertThat(shelf.verdicts().taught().get(Technique.ECHO)).isEqualTo(new Ranking.Verdicts(0, 0));
    shelf.verdicts().resetRanking("Ada", NOON);
    assertThat(shelf.verdicts().taught()).isEmpty();
    assertThat(shelf.verdicts().of(song)).hasSize(4);
    say(Technique.RIFF, Verdict.Answer.NO, "");
    assertThat(shelf.verdicts().taught().get(Technique.RIFF)).isEqualTo(new Ranking.Verdicts(0, 1));
  }

  @Test
  void refusesAVerdictThatSaysNothing() {
    assertThatThrownBy(() -> say(Technique.RIFF, Verdict.Answer.WORDS, " "))
        .hasMessageContaining("words");
  }

  @Test
  void countsSongsByWhatIsFoundInThem() {
    long other = song("hash-2");
    List<Finding> both =
        List.of(
            finding(Technique.RIFF, 0, 4, 0.9),
            finding(Technique.RIFF, 8, 12, 0.9),
            finding(Technique.ECHO, 0, 4, 0.3));
    shelf.findings().keep(song, 1, "v1", both);
    shelf.findings().keep(other, 1, "v1", List.of(finding(Technique.RIFF, 0, 4, 0.8)));
    assertThat(shelf.findings().songs()).isEqualTo(2);
    assertThat(shelf.findings().songsWith()).isEqualTo(Map.of(Technique.RIFF, 2));
    assertThat(shelf.findings().isCurrent(song, 1, "v1")).isTrue();
    assertThat(shelf.findings().isCurrent(song, 2, "v1")).isFalse();
    assertThat(shelf.findings().isCurrent(song, 1, "v2")).isFalse();
    shelf.findings().keep(song, 2, "v1", List.of());
    assertThat(shelf.findings().songsWith()).isEqualTo(Map.of(Technique.RIFF, 1));
  }
}
