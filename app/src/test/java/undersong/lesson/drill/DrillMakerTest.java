package undersong.lesson.drill;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import undersong.theory.Mode;
import undersong.theory.NoteName;
import undersong.theory.TheoryTables;

/**
 * Exercises worked out again from their tones alone: chords by the table of chord types and of
 * diatonic chords, syllables by the solfege table (shared theory tables: npm tonal 6.4.2, MIT; see
 * their SOURCE.md), the rest by the definitions.
 */
class DrillMakerTest {
  private static final int ROUNDS = 120;
  private static final DrillSource MAJOR = DrillSource.PLAIN;
  private static final DrillSource MINOR = new DrillSource(Mode.NATURAL_MINOR, 120, List.of());

  @ParameterizedTest
  @EnumSource(DrillKind.class)
  void equalSeedsMakeEqualOnesAndOthersDiffer(DrillKind kind) {
    for (int level = 1; level <= DrillKind.LEVELS; level++) {
      Set<Drill> made = new java.util.HashSet<>();
      for (int seed = 0; seed < 60; seed++) {
        Drill drill = DrillMaker.make(kind, level, seed, MAJOR);
        assertThat(drill).isEqualTo(DrillMaker.make(kind, level, seed, MAJOR));
        made.add(drill);
      }
      assertThat(made).as("%s, level %d", kind, level).hasSizeGreaterThan(15);
    }
  }

  @ParameterizedTest
  @EnumSource(DrillKind.class)
  void theRightAnswerIsNotAlwaysAtOnePlace(DrillKind kind) {
    if (kind == DrillKind.RESTING_TONE) {
      return; // it is sung
    }
    Map<Integer, Integer> places = new HashMap<>();
    for (Drill drill : drills(kind, 2, MAJOR)) {
      places.merge(drill.answer(), 1, Integer::sum);
    }
    assertThat(places).hasSizeGreaterThan(1);
    assertThat(places.values()).allSatisfy(count -> assertThat(count).isLessThan(ROUNDS * 3 / 4));
  }

  @Test
  void qualitiesAreThoseOfTheTable() {
    Map<String, Set<Integer>> table = new HashMap<>();
    for (Map<String, String> row : TheoryTables.rows("chord-types-tonal.tsv")) {
      table.put(row.get("name"), TheoryTables.pitchClasses(row.get("pitch_classes_from_root")));
    }
    table.put("diminished triad", table.get("diminished"));
    for (int level = 1; level <= 3; level++) {
      for (Drill drill : drills(DrillKind.QUALITY, level, MAJOR)) {
        int root = drill.tones().stream().mapToInt(Tone::midi).min().orElseThrow();
        Set<Integer> sounding =
            drill.tones().stream()
                .map(tone -> Math.floorMod(tone.midi() - root, 12))
                .collect(Collectors.toCollection(TreeSet::new));
        String name =
            drill
                .choices()
                .get(drill.answer())
                .replace("half diminished seventh", "half-diminished");
        assertThat(sounding).as(name).isEqualTo(table.get(name));
      }
    }
  }

  @Test
  void syllablesAreThoseOfTheTable() {
    Map<Integer, List<String>> ofMajor = new HashMap<>();
    Map<Integer, List<String>> ofMinor = new HashMap<>();
    for (Map<String, String> row : TheoryTables.rows("solfege.tsv")) {
      int semitones = Integer.parseInt(row.get("semitones_above_tonic"));
      ofMajor.put(semitones, List.of(row.get("sharp_side"), row.get("flat_side")));
      // la-based minor is sung as its relative major: three semitones further up.
      ofMinor.put(Math.floorMod(semitones - 9, 12), ofMajor.get(semitones));
    }
    for (DrillKind kind : List.of(DrillKind.TUNE_SYLLABLES, DrillKind.BASS_SYLLABLES)) {
      String part = kind == DrillKind.TUNE_SYLLABLES ? "melody" : "bass";
      for (int level = 1; level <= 3; level++) {
        for (DrillSource source : List.of(MAJOR, MINOR)) {
          for (Drill drill : drills(kind, level, source)) {
            boolean minor = drill.explanation().contains("minor");
            int tonic = tonic(drill);
            List<Tone> line =
                drill.tones().stream()
                    .filter(tone -> tone.part().equals(part) && tone.atSeconds() > 2.5)
                    .toList();
            String[] right = drill.choices().get(drill.answer()).split(" ");
            assertThat(line).hasSize(right.length).hasSize(2 + level);
            for (int i = 0; i < right.length; i++) {
              int above = Math.floorMod(line.get(i).midi() - tonic, 12);
              assertThat((minor ? ofMinor : ofMajor).get(above)).contains(right[i]);
            }
          }
        }
      }
    }
  }

  @Test
  void diatonicLoopsSoundTheChordsOfTheTable() {
    Map<String, Set<Integer>> table = new HashMap<>();
    for (Map<String, String> row : TheoryTables.rows("diatonic-chords-tonal.tsv")) {
      table.put(
          row.get("key") + " " + row.get("mode") + " " + row.get("roman_triad"),
          List.of(row.get("triad_notes").split(" ")).stream()
              .map(note -> NoteName.parse(note).pitchClass())
              .collect(Collectors.toCollection(TreeSet::new)));
    }
    int checked = 0;
    for (int level = 1; level <= 2; level++) {
      for (Drill drill : drills(DrillKind.LOOP, level, MAJOR)) {
        String key = drill.explanation().substring(3, drill.explanation().indexOf(' ', 3));
        String[] numerals = drill.choices().get(drill.answer()).split(" ");
        double chordSeconds = 120 / MAJOR.bpm();
        for (int i = 0; i < numerals.length; i++) {
          Set<Integer> expected = table.get(key + " major " + numerals[i]);
          double at = i * chordSeconds;
          Set<Integer> sounding =
              drill.tones().stream()
                  .filter(tone -> Math.abs(tone.atSeconds() - at) < 0.01)
                  .map(tone -> Math.floorMod(tone.midi(), 12))
                  .collect(Collectors.toCollection(TreeSet::new));
          if (expected != null) {
            assertThat(sounding).as("%s in %s", numerals[i], key).isEqualTo(expected);
            checked++;
          }
        }
      }
    }
    assertThat(checked).isGreaterThan(400);
  }

  @Test
  void theRestingToneIsTheTonicThatIsNamed() {
    for (int level = 1; level <= 3; level++) {
      for (Drill drill : drills(DrillKind.RESTING_TONE, level, MINOR)) {
        assertThat(drill.sung()).hasValue(tonic(drill));
      }
    }
  }

  @Test
  void oneChordComesEarlyIntoTheBarThatIsTold() {
    double beat = 60 / MAJOR.bpm();
    for (int level = 1; level <= 3; level++) {
      for (Drill drill : drills(DrillKind.EARLY_BAR, level, MAJOR)) {
        List<Double> arrivals =
            drill.tones().stream()
                .filter(tone -> tone.part().equals("bass"))
                .map(Tone::atSeconds)
                .toList();
        assertThat(arrivals).hasSize(4);
        int told = Integer.parseInt(drill.choices().get(drill.answer()).substring(4));
        for (int bar = 0; bar < 4; bar++) {
          double late = arrivals.get(bar) - 4 * bar * beat;
          double expected = bar + 1 == told ? (level == 1 ? -beat : -beat / 2) : 0;
          assertThat(late).isCloseTo(expected, within(1e-9));
        }
      }
    }
  }

  /**
   * Distances above the bass as their names say (intervals of the major scale; common practice).
   */
  @Test
  void theHeldNoteIsWhatTheSecondBassMakesOfIt() {
    Map<String, Integer> distances =
        Map.of(
            "root",
            0,
            "third",
            4,
            "fifth",
            7,
            "seventh",
            10,
            "ninth",
            2,
            "fourth",
            5,
            "thirteenth",
            9);
    for (int level = 1; level <= 3; level++) {
      for (Drill drill : drills(DrillKind.TENSION, level, MAJOR)) {
        int held = tones(drill, "melody").get(0).midi();
        List<Tone> bass = tones(drill, "bass");
        assertThat(bass).hasSize(2);
        String told = drill.choices().get(drill.answer());
        assertThat(Math.floorMod(held - bass.get(1).midi(), 12)).isEqualTo(distances.get(told));
        assertThat(bass.get(0).midi() % 12).isNotEqualTo(bass.get(1).midi() % 12);
      }
    }
  }

  @Test
  void theSecondTimeAddsOneNoteToAnOpenFifth() {
    Map<String, Integer> distances =
        Map.of("the major third", 4, "the minor third", 3, "the minor seventh", 10, "the ninth", 2);
    for (Drill drill : drills(DrillKind.ADDED_NOTE, 2, MAJOR)) {
      int root = Math.floorMod(tones(drill, "bass").get(0).midi(), 12);
      Set<Integer> open = new TreeSet<>();
      tones(drill, "chords").forEach(tone -> open.add(Math.floorMod(tone.midi() - root, 12)));
      assertThat(open).containsExactly(0, 7);
      Set<Integer> added = new TreeSet<>();
      tones(drill, "melody").forEach(tone -> added.add(Math.floorMod(tone.midi() - root, 12)));
      assertThat(added).containsExactly(distances.get(drill.choices().get(drill.answer())));
    }
  }

  @Test
  void anEchoIsAlikeAndASecondSingingIsNot() {
    for (Drill drill : drills(DrillKind.ECHO_OR_AGAIN, 3, MAJOR)) {
      List<Tone> loud = drill.tones().stream().filter(tone -> tone.level() == 1).toList();
      List<Tone> soft = drill.tones().stream().filter(tone -> tone.level() < 1).toList();
      List<Double> lags = new ArrayList<>();
      for (int i = 0; i < loud.size(); i++) {
        assertThat(soft.get(i).midi()).isEqualTo(loud.get(i).midi());
        lags.add(soft.get(i).atSeconds() - loud.get(i).atSeconds());
      }
      double spread =
          lags.stream().mapToDouble(lag -> Math.abs(lag - 4 * 60 / MAJOR.bpm())).max().orElse(0);
      assertThat(spread > 0.01).isEqualTo(drill.choices().get(drill.answer()).equals("sung again"));
    }
  }

  @Test
  void aLineStandsWhereItIsTold() {
    for (int level = 1; level <= 3; level++) {
      for (Drill drill : drills(DrillKind.PLACE, level, MAJOR)) {
        double pan = tones(drill, "melody").get(0).pan();
        String told = drill.choices().get(drill.answer());
        assertThat(told).isEqualTo(pan < 0 ? "left" : pan > 0 ? "right" : "middle");
      }
    }
  }

  @Test
  void wrongLevelsAndKindsAreNamed() {
    assertThatThrownBy(() -> DrillMaker.make(DrillKind.LOOP, 4, 1, MAJOR))
        .hasMessageContaining("Level 4 of loop must lie within 1 to 3");
    assertThatThrownBy(() -> DrillKind.named("juggling")).hasMessageContaining("resting-tone");
  }

  private static List<Drill> drills(DrillKind kind, int level, DrillSource source) {
    List<Drill> drills = new ArrayList<>();
    for (int seed = 0; seed < ROUNDS; seed++) {
      drills.add(DrillMaker.make(kind, level, seed, source));
    }
    return drills;
  }

  private static List<Tone> tones(Drill drill, String part) {
    return drill.tones().stream().filter(tone -> tone.part().equals(part)).toList();
  }

  /** The tonic an explanation names: "In Bb major ..." or "The resting tone is Bb: ...". */
  private static int tonic(Drill drill) {
    String words = drill.explanation();
    String name =
        words.startsWith("In ")
            ? words.substring(3, words.indexOf(' ', 3))
            : words.substring("The resting tone is ".length(), words.indexOf(':'));
    return NoteName.parse(name).pitchClass();
  }
}
