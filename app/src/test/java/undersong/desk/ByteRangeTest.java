package undersong.desk;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.NullSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The examples of RFC 9110, section 14.1.2, for a body of 10,000 bytes, and what may go wrong. */
class ByteRangeTest {
  @ParameterizedTest
  @CsvSource({
    "bytes=0-499,     0,  499",
    "bytes=500-999, 500,  999",
    "bytes=-500,   9500, 9999",
    "bytes=9500-,  9500, 9999",
    "bytes=0-0,       0,    0",
    "bytes=-1,     9999, 9999",
    // Ranges that reach over the end are cut there.
    "bytes=9990-20000, 9990, 9999",
    "bytes=-20000,        0, 9999",
    "'bytes = 1 - 2',     1,    2",
  })
  void readsOneRange(String header, long first, long last) {
    assertThat(ByteRange.parse(header, 10_000)).contains(new ByteRange(first, last));
  }

  @ParameterizedTest
  @ValueSource(strings = {"bytes=10000-", "bytes=10000-20000", "bytes=999999999999-", "bytes=-0"})
  void behindTheEndThereIsNothing(String header) {
    assertThat(ByteRange.parse(header, 10_000).orElseThrow().satisfiable()).isFalse();
  }

  @ParameterizedTest
  @NullSource
  @ValueSource(
      strings = {
        "",
        "junk",
        "bytes=",
        "bytes=-",
        "bytes=a-b",
        "bytes=5-2",
        "bytes=0-1,4-5",
        "lines=0-4",
        "bytes=--5",
        "bytes=1",
        "bytes=99999999999999999999-"
      })
  void whatIsNoRangeIsIgnored(String header) {
    assertThat(ByteRange.parse(header, 10_000)).isEmpty();
  }

  @Test
  void lengthCountsBothEnds() {
    assertThat(new ByteRange(500, 999).length()).isEqualTo(500);
  }
}
