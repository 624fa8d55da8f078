package undersong.shelf;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import undersong.reading.Correction;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Melody;
import undersong.reading.PitchStretch;
import undersong.reading.Provenance;
import undersong.reading.Reading;
import undersong.reading.SampleCorrections;
import undersong.reading.SampleReadings;
import undersong.reading.Tuning;
import undersong.theory.ChordQuality;
import undersong.theory.ChordSymbol;
import undersong.theory.NoteName;
import undersong.time.Span;

class ReadingJsonTest {
  static Stream<Correction> corrections() {
    return Stream.concat(
        SampleCorrections.ofEveryKind().stream(),
        Stream.of(
            new Correction.ChordOver(new Span(0, 1), ChordSymbol.NONE),
            new Correction.ChordOver(
                new Span(0, 1),
                new ChordSymbol.Chord(
                    NoteName.parse("E"),
                    ChordQuality.DOMINANT_SEVENTH,
                    Set.of(14),
                    Set.of(7),
                    NoteName.parse("G#"))),
            new Correction.ChordOver(new Span(0.1, 0.30000000000000004), ChordSymbol.UNKNOWN)));
  }

  @ParameterizedTest
  @MethodSource("corrections")
  void everyCorrectionComesBackAsItWasSaid(Correction correction) {
    assertThat(ReadingJson.parseCorrection(ReadingJson.print(correction))).isEqualTo(correction);
  }

  /** A kind added to the language but not to the samples would otherwise go unchecked. */
  @Test
  void theSamplesHoldEveryKind() {
    List<Class<?>> kinds = Arrays.asList(Correction.class.getPermittedSubclasses());
    assertThat(SampleCorrections.ofEveryKind().stream().<Class<?>>map(Object::getClass))
        .containsExactlyInAnyOrderElementsOf(kinds);
  }

  /** Logs outlive programs: these texts were written once and must stay readable. */
  @Test
  void readsWhatOlderProgramsWrote() {
    assertThat(
            ReadingJson.parseCorrection(
                "{\"kind\":\"ChordOver\",\"span\":[2.0,4.0],\"chord\":{\"root\":\"Bb\","
                    + "\"quality\":\"MINOR_SEVENTH\",\"added\":[14,17],\"bass\":\"Db\"}}"))
        .isEqualTo(SampleCorrections.ofEveryKind().get(6));
    assertThat(ReadingJson.parseCorrection("{\"kind\":\"DownbeatAt\",\"seconds\":2.0}"))
        .isEqualTo(new Correction.DownbeatAt(2));
  }

  @Test
  void readsATuneWhosePitchInRestsWasNotKept() {
    String older =
        "{\"durationSeconds\":3,\"facets\":{\"melody\":{\"notes\":[],\"curve\":["
            + "{\"startSeconds\":1,\"stepSeconds\":0.04,\"midiPitches\":[69.5]}]}}}";
    PitchStretch stretch = new PitchStretch(1, 0.04, List.of(69.5));
    assertThat(ReadingJson.parseReading(older).find(Facet.MELODY))
        .contains(new Melody(List.of(), List.of(stretch), List.of()));
  }

  @Test
  void aFullReadingComesBackEqual() {
    Reading reading =
        SampleReadings.full()
            .with(
                Facet.TUNING,
                new Derived<>(new Tuning(3, 0.5), List.of(new Correction.TuningIs(99))));
    Reading back = ReadingJson.parseReading(ReadingJson.print(reading));
    assertThat(back).isEqualTo(reading);
    assertThat(Facet.IN_ORDER).allSatisfy(facet -> assertThat(back.find(facet)).isPresent());
    assertThat(back.unplaced()).containsExactly(new Correction.TuningIs(99));
  }

  @Test
  void aReadingUnderConstructionStaysUnderConstruction() {
    Reading reading = Reading.empty(3).with(Facet.TUNING, Derived.of(new Tuning(0, 0)));
    Reading back = ReadingJson.parseReading(ReadingJson.print(reading));
    assertThat(back).isEqualTo(reading);
    assertThat(back.find(Facet.BEATS)).isEmpty();
  }

  @Test
  void provenanceComesBackEqual() {
    Provenance provenance = new Provenance("f1", "e2", Map.of("beats", 12.5));
    assertThat(ReadingJson.parseProvenance(ReadingJson.print(provenance))).isEqualTo(provenance);
  }

  @Test
  void saysWhatDoesNotFit() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> ReadingJson.parseCorrection("{\"kind\":\"BeatAt\"}"))
        .withMessageContaining("Correction")
        .withMessageContaining("BeatAt");
    assertThatIllegalArgumentException()
        .isThrownBy(
            () ->
                ReadingJson.parseCorrection(
                    "{\"kind\":\"KeyOver\",\"span\":[4,2],\"key\":{\"tonic\":\"A\",\"mode\":\"MAJOR\"}}"));
    assertThatIllegalArgumentException().isThrownBy(() -> ReadingJson.parseReading("{"));
  }
}
