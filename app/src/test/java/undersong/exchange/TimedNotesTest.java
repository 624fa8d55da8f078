package undersong.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import undersong.time.TimeCode;

class TimedNotesTest {
  @Test
  void readsATableWithHeadsInAnyOrder() {
    assertThat(
            TimedNotes.read("words,end,start\r\n\"late, and sweet\",1:07.5,62\r\nhook,,0:05\r\n"))
        .containsExactly(
            new TimedNote(62, OptionalDouble.of(67.5), "late, and sweet"),
            new TimedNote(5, OptionalDouble.empty(), "hook"));
  }

  @Test
  void readsATableWithoutHeads() {
    assertThat(TimedNotes.read("3.5,leap of a sixth\n1:02:03,x\n"))
        .containsExactly(
            new TimedNote(3.5, OptionalDouble.empty(), "leap of a sixth"),
            new TimedNote(3723, OptionalDouble.empty(), "x"));
    assertThat(TimedNotes.read("0:10\t0:12\techo on the right\n"))
        .containsExactly(new TimedNote(10, OptionalDouble.of(12), "echo on the right"));
  }

  /** Rules 5 to 7 of RFC 4180, section 2. */
  @Test
  void quotedFieldsHoldQuotesCommasAndLineEnds() {
    assertThat(TimedNotes.read("\"1\",\"a \"\"blue\"\" third,\r\nheld\"\r\n"))
        .containsExactly(new TimedNote(1, OptionalDouble.empty(), "a \"blue\" third,\r\nheld"));
  }

  /** JAMS: an annotation's namespace and its rows of time, duration, value, confidence. */
  @Test
  void readsOpenTagsOfJams() {
    assertThat(
            TimedNotes.read(
                """
                {"annotations": [
                  {"namespace": "beat", "data": [{"time": 1, "duration": 0, "value": 1}]},
                  {"namespace": "tag_open", "data": [
                    {"time": 4.25, "duration": 2, "value": "the bass stays", "confidence": null},
                    {"time": 9, "duration": 0, "value": "stop", "confidence": 1}]}]}
                """))
        .containsExactly(
            new TimedNote(4.25, OptionalDouble.of(6.25), "the bass stays"),
            new TimedNote(9, OptionalDouble.empty(), "stop"));
  }

  @Test
  void saysWhichLineIsWrongAndWhy() {
    assertThatThrownBy(() -> TimedNotes.read("start,words\n1,a\nsoon,b\n"))
        .hasMessage(
            "Line 3: \"soon\" is no time; write seconds (12.5) or minutes and seconds (3:07).");
    assertThatThrownBy(() -> TimedNotes.read("5,4,backwards\n"))
        .hasMessageContaining("must end later");
    assertThatThrownBy(() -> TimedNotes.read("5,\n")).hasMessageContaining("has no words");
    assertThatThrownBy(() -> TimedNotes.read("5,\"open\n")).hasMessageContaining("never closed");
    assertThatThrownBy(() -> TimedNotes.read("")).hasMessageContaining("no notes");
    assertThatThrownBy(() -> TimedNotes.read("{\"annotations\": []}"))
        .hasMessageContaining("no notes");
    assertThatThrownBy(() -> TimedNotes.read("{")).hasMessageContaining("is none");
  }

  @ParameterizedTest
  @CsvSource({"12.5, 12.5", "3:07, 187", "0:05.25, 5.25", "1:03:07, 3787", "90, 90", "75:00, 4500"})
  void readsTimesAsPeopleWriteThem(String text, double seconds) {
    assertThat(TimeCode.seconds(text)).isEqualTo(seconds);
    assertThat(TimeCode.isTime(text)).isTrue();
  }

  @ParameterizedTest
  @CsvSource({"-1", "3:60", "x", "1:2:3:4", "NaN"})
  void refusesWhatIsNoTime(String text) {
    assertThatThrownBy(() -> TimeCode.seconds(text)).hasMessageContaining("is no time");
  }
}
