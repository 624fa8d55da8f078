package undersong.technique;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.Test;

/**
 * docs/techniques.md is made from the catalogue's texts. Run with {@code
 * -Dundersong.writeGuide=true} to write it anew after they have changed.
 */
class TechniqueGuideTest {
  private static final String HEAD =
      """
      # Techniques

      What the program can name. Every finding says where it is, how sure it is and why: what to listen
      to, what was measured against which limit, what was read. Where several names fit the same notes the
      most specific is told and the others stand under it. Made from the program's own texts.
      """;

  @Test
  void theGuideTellsTheCatalogue() throws IOException {
    Path fromModule = Path.of("..", "docs", "techniques.md");
    Path guide =
        Files.exists(Path.of("..", "docs")) ? fromModule : Path.of("docs", "techniques.md");
    if (Boolean.getBoolean("undersong.writeGuide")) {
      Files.writeString(guide, page());
      return;
    }
    assertThat(Files.readString(guide)).isEqualTo(page());
  }

  private static String page() {
    Texts texts = Texts.in(Locale.ENGLISH);
    StringBuilder page = new StringBuilder(HEAD);
    for (Technique.Family family : Technique.Family.values()) {
      String name = family.name().charAt(0) + family.name().substring(1).toLowerCase(Locale.ROOT);
      page.append("\n## ").append(name).append('\n');
      for (Technique technique : Technique.values()) {
        if (technique.family() == family) {
          page.append(entry(technique, texts));
        }
      }
    }
    return page.toString();
  }

  private static String entry(Technique technique, Texts texts) {
    return """

        ### %s

        `%s` %s

        - Listen: %s
        - Try: %s
        - Source: %s
        """
        .formatted(
            texts.name(technique),
            technique.id(),
            texts.definition(technique),
            texts.whatToListenFor(technique),
            texts.howToTryIt(technique),
            texts.source(technique));
  }
}
