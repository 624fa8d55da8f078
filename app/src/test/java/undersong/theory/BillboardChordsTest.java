package undersong.theory;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import undersong.theory.ChordSymbol.Chord;

/** Harte labels as people write them, in the charts of mcgill-billboard (CC0). */
class BillboardChordsTest {
  private static final Pattern CHORD = Pattern.compile("(?<=[ |])[A-G][#b]*:\\S+");

  @Test
  void readsEveryChordOfTheChartsAndWritesItBack() throws IOException {
    Path folder = TheoryTables.folder("mcgill-billboard").resolve("annotations");
    Map<String, Integer> occurrences = new TreeMap<>();
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file : files.sorted().toList()) {
        for (String line : Files.readAllLines(file)) {
          Matcher matcher = CHORD.matcher(line);
          while (matcher.find()) {
            occurrences.merge(matcher.group(), 1, Integer::sum);
          }
        }
      }
    }
    int rewritten = 0;
    for (String label : occurrences.keySet()) {
      Chord chord = (Chord) HarteSyntax.parse(label);
      String text = HarteSyntax.print(chord);
      assertThat(HarteSyntax.parse(text)).as(label).isEqualTo(chord);
      Chord fromSymbol = (Chord) LeadSheet.parse(LeadSheet.print(chord));
      assertThat(fromSymbol.pitchClassBits()).as(label).isEqualTo(chord.pitchClassBits());
      rewritten += text.equals(label) ? 0 : 1;
    }
    assertThat(occurrences).hasSizeGreaterThan(500);
    assertThat(rewritten)
        .as("labels with another usual spelling")
        .isLessThan(occurrences.size() / 4);
  }
}
