package undersong.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import undersong.reading.Facet;
import undersong.technique.BarRange;
import undersong.technique.Evidence;
import undersong.technique.Finding;
import undersong.technique.Sentence;
import undersong.technique.Technique;
import undersong.technique.Texts;
import undersong.time.Span;

class FindingsJsonTest {
  private static final Span SPAN = new Span(12.34567, 20);

  private static Finding finding(Optional<BarRange> bars, List<Technique> under) {
    return new Finding(
            Technique.KEY_LIFT,
            SPAN,
            bars,
            0.87654,
            "lift 2",
            Sentence.of("key-lift.summary", Sentence.of("role.chorus"), 2, "before"),
            List.of(
                new Evidence.Heard(SPAN, Sentence.of("key-lift.hear")),
                Evidence.Measured.atLeast(Sentence.of("key-lift.semitones"), 2, 1, "semitones"),
                new Evidence.Read(Facet.KEYS, SPAN, "D major")))
        .withUnder(under);
  }

  private static JsonNode written(Finding finding) throws Exception {
    return new ObjectMapper()
        .readTree(FindingsJson.print(List.of(finding), Texts.in(Locale.ENGLISH)))
        .get(0);
  }

  @Test
  void writesARowPerOccurrence() throws Exception {
    JsonNode row = written(finding(Optional.of(new BarRange(5, 8)), List.of(Technique.MODULATION)));
    assertThat(row.get("technique").asText()).isEqualTo("key-lift");
    assertThat(row.get("start").asDouble()).isEqualTo(12.346);
    assertThat(row.get("end").asDouble()).isEqualTo(20);
    assertThat(row.get("bars")).hasToString("[5,8]");
    assertThat(row.get("confidence").asDouble()).isEqualTo(0.877);
    assertThat(row.get("group").asText()).isEqualTo("lift 2");
    assertThat(row.get("summary").asText())
        .isEqualTo("Chorus comes back a whole tone higher than before.");
    assertThat(row.get("under")).hasToString("[\"modulation\"]");
  }

  @Test
  void writesEveryKindOfEvidence() throws Exception {
    JsonNode evidence = written(finding(Optional.empty(), List.of())).get("evidence");
    assertThat(evidence).hasSize(3);
    assertThat(evidence.at("/0/kind").asText()).isEqualTo("heard");
    assertThat(evidence.at("/0/start").asDouble()).isEqualTo(12.346);
    assertThat(evidence.at("/1/kind").asText()).isEqualTo("measured");
    assertThat(evidence.at("/1/value").asDouble()).isEqualTo(2);
    assertThat(evidence.at("/1/bound").asText()).isEqualTo("at least");
    assertThat(evidence.at("/1/text").asText()).isEqualTo("lift: 2 semitones (limit: at least 1)");
    assertThat(evidence.at("/2/facet").asText()).isEqualTo("keys");
    assertThat(evidence.at("/2/value").asText()).isEqualTo("D major");
  }

  @Test
  void writesNoBarsWithoutPulseAndAnEmptyListInSilence() throws Exception {
    assertThat(written(finding(Optional.empty(), List.of())).get("bars").isNull()).isTrue();
    assertThat(FindingsJson.print(List.of(), Texts.in(Locale.ENGLISH)).strip())
        .matches("\\[\\s*\\]");
  }
}
