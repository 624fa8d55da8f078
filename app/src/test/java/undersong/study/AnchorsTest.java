package undersong.study;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import undersong.reading.Correction;
import undersong.reading.SampleCorrections;
import undersong.theory.ChordSymbol;
import undersong.theory.LeadSheet;
import undersong.time.Span;

class AnchorsTest {
  static Stream<Correction> corrections() {
    return SampleCorrections.ofEveryKind().stream();
  }

  @ParameterizedTest
  @MethodSource("corrections")
  void everyKindMovesThereAndBack(Correction correction) {
    Optional<Correction> there = Anchors.moved(correction, at -> at + 16, 2);
    if (Anchors.seconds(correction).isEmpty()) {
      assertThat(there).isEmpty();
    } else {
      assertThat(there).isPresent().get().isNotEqualTo(correction).hasSameClassAs(correction);
      assertThat(Anchors.moved(there.get(), at -> at - 16, -2)).contains(correction);
    }
  }

  /** A semitone up is spelled as the closer key: common practice, no source. */
  @ParameterizedTest
  @CsvSource({"C, 1, Db", "Am7/G, 2, Bm7/A", "F#7, 1, G7", "Bb, -2, Ab", "E, 12, E"})
  void transposesChordsWithTheMusic(String here, int semitones, String there) {
    Correction correction = new Correction.ChordOver(new Span(0, 1), LeadSheet.parse(here));
    assertThat(Anchors.moved(correction, at -> at, semitones))
        .contains(new Correction.ChordOver(new Span(0, 1), LeadSheet.parse(there)));
  }

  @Test
  void noChordStaysNoChord() {
    Correction correction = new Correction.ChordOver(new Span(0, 1), ChordSymbol.NONE);
    assertThat(Anchors.moved(correction, at -> at, 5)).contains(correction);
  }
}
