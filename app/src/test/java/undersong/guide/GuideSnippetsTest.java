package undersong.guide;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** The examples of docs/guide.md are the code of {@link GuideTest}, to the letter. */
class GuideSnippetsTest {
  private static final Path GUIDE = Path.of("../docs/guide.md");
  private static final Path SOURCE = Path.of("src/test/java/undersong/guide/GuideTest.java");
  private static final Pattern BLOCK =
      Pattern.compile("<!-- GuideTest: (\\w+) -->\\n```java\\n(.*?)```", Pattern.DOTALL);

  @Test
  void everyExampleIsCutFromATest() throws IOException {
    String source = Files.readString(SOURCE);
    String guide = Files.readString(GUIDE);
    List<String> shown = new ArrayList<>();
    Matcher block = BLOCK.matcher(guide);
    while (block.find()) {
      shown.add(block.group(1));
      assertThat(block.group(2)).as(block.group(1)).isEqualTo(region(source, block.group(1)));
    }
    assertThat(shown)
        .as("blocks of Java in the guide")
        .hasSize(guide.split("```java", -1).length - 1);
    assertThat(shown).hasSizeGreaterThan(4).doesNotHaveDuplicates();
  }

  /** What stands between the marks, moved to the left margin. */
  private static String region(String source, String name) {
    int from = source.indexOf("// [" + name + "]\n");
    int to = source.indexOf("// [/" + name + "]");
    assertThat(from).as("mark [%s] in %s", name, SOURCE).isNotNegative();
    assertThat(to).as("mark [/%s] in %s", name, SOURCE).isGreaterThan(from);
    String body =
        source.substring(source.indexOf('\n', from) + 1, source.lastIndexOf('\n', to) + 1);
    return body.stripTrailing().stripIndent() + "\n";
  }
}
