package undersong.theory;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class KeyProfilesTest {
  private static final Map<String, KeyProfiles> BY_NAME =
      Map.of(
          "KrumhanslKessler1982", KeyProfiles.KRUMHANSL_KESSLER_1982,
          "Temperley1999", KeyProfiles.TEMPERLEY_1999,
          "TemperleyKostkaPayne2007", KeyProfiles.TEMPERLEY_KOSTKA_PAYNE_2007,
          "AlbrechtShanahan2013", KeyProfiles.ALBRECHT_SHANAHAN_2013,
          "TemperleyDeClercq2013-rock-harmony", KeyProfiles.TEMPERLEY_DE_CLERCQ_2013_HARMONY,
          "TemperleyDeClercq2013-rock-melody", KeyProfiles.TEMPERLEY_DE_CLERCQ_2013_MELODY);

  /** Against key-profiles.tsv (typed from the papers, compared with public tables). */
  @Test
  void agreesWithTheTableOfPublishedNumbers() {
    List<Map<String, String>> rows = TheoryTables.rows("key-profiles.tsv");
    for (Map<String, String> row : rows) {
      KeyProfiles profile = BY_NAME.get(row.get("profile"));
      double[] weights = row.get("mode").equals("major") ? profile.major() : profile.minor();
      for (int semitones = 0; semitones < 12; semitones++) {
        assertThat(weights[semitones])
            .as("%s %s %d", profile, row.get("mode"), semitones)
            .isEqualTo(Double.parseDouble(row.get("semitone_" + semitones)));
      }
    }
    assertThat(rows).hasSize(2 * KeyProfiles.values().length);
  }

  /** The 1982 paper's value (from memory); copies with 2.33 exist. */
  @Test
  void keepsTheOriginalSecondNumber() {
    assertThat(KeyProfiles.KRUMHANSL_KESSLER_1982.major()[1]).isEqualTo(2.23);
  }

  /** Krumhansl & Kessler 1982: the tonic stands highest; common to all profiles in major. */
  @Test
  void putsTheTonicTriadAboveTheRestOfTheScaleInMajor() {
    for (KeyProfiles profile : KeyProfiles.values()) {
      double[] major = profile.major();
      for (int foreign : new int[] {1, 3, 6, 8, 10}) {
        assertThat(major[foreign]).as(profile.toString()).isLessThan(Math.min(major[0], major[7]));
      }
    }
  }
}
