package undersong.technique.melody;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.technique.WrittenSong;

/** Register as Doll 2011 describes it, on tunes written by hand. */
class RegisterFindersTest {
  private static List<String> told(String verse, String chorus) {
    Reading reading =
        WrittenSong.in("C major")
            .section(SectionRole.VERSE, "A", "C | F | G | C")
            .section(SectionRole.CHORUS, "B", "F | C | G | C")
            .tune(verse + " " + chorus)
            .reading();
    return WrittenSong.told(MelodyFinders.all(), reading).stream()
        .filter(f -> f.startsWith("register-lift") || f.startsWith("melodic-peak"))
        .toList();
  }

  @Test
  void tellsAChorusThatSitsHigher() {
    assertThat(told("e4@0-4 g4@4-8 e4@8-12", "c5@16-20 b4@20-24 c5@24-28 g4@28-32"))
        .contains("register-lift 5-8");
    assertThat(told("e4@0-4 g4@4-8 e4@8-12", "e4@16-20 g4@20-24 e4@24-28"))
        .noneMatch(f -> f.startsWith("register"));
  }

  /** One high note moves no median. */
  @Test
  void callsOneHighNoteAPeakAndNoLift() {
    assertThat(told("e4@0-4 g4@4-8 e4@8-12", "e4@16-20 c5@20-21 e4@21-28"))
        .containsExactly("melodic-peak 6-6");
  }

  @Test
  void callsNoHighestNoteAPeakThatIsSungTwice() {
    assertThat(told("e4@0-4 c5@4-8 e4@8-12", "e4@16-20 c5@20-22 e4@22-28")).isEmpty();
  }

  @Test
  void callsNoEarlyNoteAPeak() {
    assertThat(told("e4@0-4 e5@4-8 e4@8-12", "e4@16-20 g4@20-22 e4@22-28")).isEmpty();
  }

  @Test
  void findsNothingWhereNobodySings() {
    Reading silent =
        WrittenSong.in("C major").section(SectionRole.VERSE, "A", "C | F | G | C").reading();
    assertThat(WrittenSong.told(MelodyFinders.all(), silent)).isEmpty();
  }
}
