package undersong.technique;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Locale;
import org.junit.jupiter.api.Test;
import undersong.reading.Facet;
import undersong.technique.plain.PlainVersion;
import undersong.time.Span;

class TextsTest {
  private static final Evidence MEASURED =
      Evidence.Measured.atLeast(Sentence.of("kind.theory"), 0.98, 0.25, "beats");

  /**
   * Every technique can be taught: it has a name, what it is, what to hear, what to try, a source.
   */
  @Test
  void tellsEveryTechniqueWhole() {
    Texts english = Texts.in(Locale.ENGLISH);
    for (Technique technique : Technique.values()) {
      assertThat(english.name(technique)).isNotBlank();
      assertThat(english.definition(technique)).endsWith(".").hasSizeGreaterThan(40);
      assertThat(english.whatToListenFor(technique)).matches("(?s).*[.?]").hasSizeGreaterThan(10);
      assertThat(english.howToTryIt(technique)).endsWith(".").hasSizeGreaterThan(15);
      assertThat(english.source(technique)).isNotBlank();
      if (PlainVersion.knows(technique)) {
        assertThat(english.plain(technique)).matches("[a-z].*[a-z]");
      }
    }
  }

  @Test
  void putsEvidenceIntoWords() {
    Texts english = Texts.in(Locale.ENGLISH);
    assertThat(english.say(MEASURED)).isEqualTo("Theory: 0.98 beats (limit: at least 0.25)");
    assertThat(english.say(new Evidence.Read(Facet.CHORDS, new Span(0, 1), "Gm7")))
        .isEqualTo("chords: Gm7");
  }

  @Test
  void writesNumbersAsTheLocaleDoes() {
    assertThat(Texts.in(Locale.GERMANY).say(MEASURED)).contains("0,98");
  }

  @Test
  void saysWhereMissingWordsBelong() {
    assertThatThrownBy(() -> Texts.in(Locale.ENGLISH).say(Sentence.of("no-such-key")))
        .hasMessageContaining("no-such-key")
        .hasMessageContaining(".properties");
  }
}
