package undersong.theory;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import undersong.theory.ChordSymbol.Chord;

/** Lead-sheet symbols against chord-types-tonal.tsv (npm tonal 6.4.2; see its SOURCE). */
class ChordTypesTableTest {
  /**
   * Left out beside those on which the table's two libraries disagree. Bare triangle words with a
   * sharp fourth: "maj#4" has no seventh here. "7alt", "alt7", "phryg", "4" and "quartal" name no
   * particular notes, or different ones to different people. "dom" is a word, not a symbol. "b9sus"
   * after C reads as the note Cb. "m11A" is a slip of the table.
   */
  private static final Set<String> LEFT_OUT =
      Set.of("maj#4", "7alt", "alt7", "phryg", "4", "quartal", "b9sus", "m11A");

  @Test
  void readsTheNotesThatTheTableGives() {
    List<String> differing = new ArrayList<>();
    int compared = 0;
    for (Map<String, String> row : TheoryTables.rows("chord-types-tonal.tsv")) {
      for (String alias : row.get("aliases").split(" \\| ", -1)) {
        boolean disputed =
            row.get("chord_symbol_pitch_classes_agree").contains("C" + alias + ":no");
        if (disputed || LEFT_OUT.contains(alias)) {
          continue;
        }
        compared++;
        Set<Integer> expected = TheoryTables.pitchClasses(row.get("pitch_classes_from_root"));
        try {
          Chord chord = (Chord) LeadSheet.parse("C" + alias.strip());
          Set<Integer> read = TheoryTables.pitchClasses(chord.pitchClassBits());
          if (!read.equals(expected)) {
            differing.add("C%s: read %s, table %s".formatted(alias, read, expected));
          }
        } catch (IllegalArgumentException refused) {
          differing.add("C%s: %s".formatted(alias, refused.getMessage()));
        }
      }
    }
    assertThat(differing).as("of %d symbols", compared).isEmpty();
    assertThat(compared).isGreaterThan(150);
  }
}
