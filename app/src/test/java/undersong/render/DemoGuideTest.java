package undersong.render;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import undersong.render.score.Truth;

/**
 * The table in docs/demo.md is made from the scores. Run with {@code -Dundersong.writeGuide=true}
 * to write it anew after a score has changed.
 */
class DemoGuideTest {
  private static final String BEGIN = "<!-- table: planted -->\n";
  private static final String END = "<!-- end -->";

  @Test
  void theGuideListsWhatIsPlanted() throws IOException {
    Path guide = guide();
    String text = Files.readString(guide);
    int begin = text.indexOf(BEGIN) + BEGIN.length();
    int end = text.indexOf(END, begin);
    assertThat(begin).as("the mark %s in %s", BEGIN, guide).isGreaterThan(BEGIN.length());
    if (Boolean.getBoolean("undersong.writeGuide")) {
      Files.writeString(guide, text.substring(0, begin) + table() + text.substring(end));
      return;
    }
    assertThat(text.substring(begin, end)).isEqualTo(table());
  }

  private static Path guide() {
    Path fromModule = Path.of("..", "docs", "demo.md");
    return Files.exists(fromModule) ? fromModule : Path.of("docs", "demo.md");
  }

  private static String table() {
    Map<String, StringBuilder> rows = new TreeMap<>();
    for (DemoSong song : DemoSongs.all()) {
      Map<String, List<Truth.Planted>> byId =
          song.truth().planted().stream()
              .sorted(Comparator.comparingInt(Truth.Planted::firstBar))
              .collect(Collectors.groupingBy(Truth.Planted::techniqueId));
      byId.forEach(
          (id, planted) -> {
            String bars =
                planted.stream()
                    .map(DemoGuideTest::bars)
                    .distinct()
                    .collect(Collectors.joining(", "));
            rows.computeIfAbsent(id, unused -> new StringBuilder())
                .append(
                    "| `%s` | %s | %s | %s |%n"
                        .formatted(id, song.title(), bars, planted.get(0).remark())
                        .replace("\r\n", "\n"));
          });
    }
    return "| technique | song | bars | what to hear (first place) |\n| --- | --- | --- | --- |\n"
        + String.join("", rows.values());
  }

  private static String bars(Truth.Planted planted) {
    return planted.firstBar() == planted.lastBar()
        ? "" + planted.firstBar()
        : planted.firstBar() + "-" + planted.lastBar();
  }
}
