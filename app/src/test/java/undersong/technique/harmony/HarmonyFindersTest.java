package undersong.technique.harmony;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Line;
import undersong.reading.Lines;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.technique.Calibration;
import undersong.technique.Finding;
import undersong.technique.Techniques;
import undersong.technique.Texts;
import undersong.technique.WrittenSong;
import undersong.time.Span;

/**
 * Progressions whose names any textbook gives (Open Music Theory, chapters on applied chords, modal
 * mixture, modes and cadences; from memory), and such as must not be called so.
 */
class HarmonyFindersTest {
  private static List<String> told(Reading reading) {
    return WrittenSong.told(HarmonyFinders.all(), reading);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {
        "borrowed-chord 3-3; C major; C | Am | Fm | C",
        "borrowed-chord 2-3; C major; C | Ab | Bb | C | F | C",
        "borrowed-chord 4-4; A minor; Am | F | G | A | F | G | Am | F | G | Am",
        "secondary-dominant 2-3; C major; C | D7 | G | C",
        "secondary-dominant 2-4; C major; C | A7 | Em | Dm | G | C",
        "harmonic-minor-dominant 3-3; A minor; Am | Dm | E7 | Am",
        "harmonic-minor-dominant 3-3; A minor; Am | Dm | G#dim | Am",
        "modal-colour 2-2; A minor; Am | D | Am | F",
        "modal-colour 3-3; C major; C | F | Bb | C",
        "modal-colour 2-2; A minor; Am | F | G | Am",
        "modal-colour 2-2; F major; F | G | F | Dm",
        "modal-colour 2-2; E minor; Em | F | Em | D",
        "guide-tone-switch 2-3; C major; C | Dm | D | G",
        "guide-tone-switch 1-2; B minor; Bm | Bdim | Em | Bm",
        "chromatic-inner-line 1-4; A minor; Am | Am(maj7) | Am7 | Am6 | Dm",
        "pedal-point 1-4; C major; C | F/C | G/C | C | Am",
        "stepwise-bass-line 1-4; C major; C | G/B | Am | Em/G | Dm",
        "stepwise-bass-line 1-4; A minor; Am | G | F | E | Am",
        "plagal-chain 2-4; C major; C | Bb | F | C",
        "plagal-chain 2-6; C major; C | Ab | Eb | Bb | F | C",
        "withheld-third 1-4; E minor; E5 | E5 | D5 | E5 | Em | Am | Bm | Em | Am | Em",
      })
  void tells(String finding, String key, String chords) {
    Reading reading = WrittenSong.in(key).section(SectionRole.VERSE, "A", chords).reading();
    assertThat(told(reading)).contains(finding);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {
        // Blues sevenths borrow nothing and apply to nothing.
        "borrowed-chord; C major; C7 | F7 | C7 | C7 | F7 | F7 | C7 | C7 | G7 | F7 | C7 | G7",
        "secondary-dominant; C major; C7 | F7 | C7 | C7 | F7 | F7 | C7 | C7 | G7 | F7 | C7 | G7",
        // Raised 6 and 7 in minor are no mixture.
        "borrowed-chord; A minor; Am | E7 | Am | D | E | Am",
        // A major tonic that leads to 4 is its dominant.
        "borrowed-chord; A minor; Am | A7 | Dm | E7 | Am",
        // Without its target a major chord on 2 is colour.
        "secondary-dominant; C major; C | D | F | C",
        "modal-colour; A minor; Am | D | E7 | Am",
        "modal-colour; C major; C | Bb | Gm | Dm",
        // The Neapolitan goes to the dominant.
        "modal-colour; A minor; Am | Bb | E7 | Am",
        // A suspension that resolves turns no quality; neither does a bass that moves.
        "guide-tone-switch; C major; C | Gsus4 | G | C",
        "guide-tone-switch; C major; C | Am/C | F | C",
        // Three chords over their own roots make no line.
        "stepwise-bass-line; C major; C | Dm | Em | F",
        "pedal-point; C major; C | Am/C | C | Am/C | C",
        "chromatic-inner-line; C major; C | Cmaj7 | F | C",
        "plagal-chain; C major; C | F | G | C",
        "withheld-third; C major; C | F | G | C",
        "harmonic-minor-dominant; A minor; Am | Em | F | Am",
        "harmonic-minor-dominant; C major; C | F | G | C",
      })
  void staysSilent(String technique, String key, String chords) {
    Reading reading = WrittenSong.in(key).section(SectionRole.VERSE, "A", chords).reading();
    assertThat(told(reading)).noneMatch(finding -> finding.startsWith(technique + " "));
  }

  /** The chords' names do not tell the walk; the line that walks does. */
  @Test
  void hearsAChromaticWalkInALine() {
    Reading chords =
        WrittenSong.in("E minor").section(SectionRole.BRIDGE, "A", "Em | Em | Em | Em").reading();
    assertThat(told(withLine(chords, 64, 63, 62, 61))).contains("chromatic-inner-line 1-4");
    // Whole tones are no chromatic walk.
    assertThat(told(withLine(chords, 64, 62, 60, 59))).isEmpty();
    Reading moving =
        WrittenSong.in("E minor").section(SectionRole.BRIDGE, "A", "Em | B | D | A").reading();
    assertThat(told(withLine(moving, 64, 63, 62, 61)))
        .noneMatch(finding -> finding.startsWith("chromatic"));
  }

  /** One note a bar. */
  private static Reading withLine(Reading reading, int... midi) {
    List<NoteEvent> notes = new ArrayList<>();
    for (int bar = 0; bar < midi.length; bar++) {
      notes.add(new NoteEvent(new Span(2 * bar, 2 * bar + 1.9), midi[bar], 0.95));
    }
    Line line = new Line("line-1", notes, Optional.empty(), Optional.empty(), 1);
    return reading.with(Facet.LINES, Derived.of(new Lines(List.of(line), List.of())));
  }

  @Test
  void tellsALoopFromItsThirdRoundOn() {
    String loop = "C | G | Am | F | C | G | Am | F";
    WrittenSong twice =
        WrittenSong.in("C major")
            .section(SectionRole.VERSE, "A", loop)
            .section(SectionRole.BRIDGE, "B", "Dm | Em | Dm | G | Em | F | Dm | G");
    assertThat(told(twice.reading())).noneMatch(finding -> finding.startsWith("chord-loop"));
    WrittenSong again = twice.section(SectionRole.VERSE, "A", loop);
    assertThat(told(again.reading())).contains("chord-loop 1-8", "chord-loop 17-24");
  }

  @Test
  void tellsTheDominantThatDoesNotGoHomeWhereACopyDid() {
    Reading reading =
        WrittenSong.in("C major")
            .section(SectionRole.CHORUS, "A", "C | F | G | C")
            .section(SectionRole.CHORUS, "A", "C | F | G | Am")
            .reading();
    assertThat(told(reading)).contains("deceptive-cadence 7-8");
  }

  @Test
  void callsNoDominantDeceptiveInTheMiddleOfAPhrase() {
    Reading reading =
        WrittenSong.in("C major")
            .section(SectionRole.CHORUS, "A", "C | G | Am | F | Dm | F | G | C")
            .reading();
    assertThat(told(reading)).noneMatch(finding -> finding.startsWith("deceptive"));
  }

  @Test
  void tellsThePhraseThatStopsOnTheDominant() {
    WrittenSong song =
        WrittenSong.in("C major")
            .section(SectionRole.VERSE, "A", "C | F | Dm | G")
            .section(SectionRole.CHORUS, "B", "Am | F | C | C");
    assertThat(told(song.tune("c5@0-2 e5@2-4 f5@8-10 b4@12-15 c5@16-18").reading()))
        .contains("half-cadence 4-4");
    // The tune runs on: no rest, no cadence.
    assertThat(told(song.tune("b4@12-13 c5@13-14 d5@14-15 e5@15-16 c5@16-18").reading()))
        .noneMatch(finding -> finding.startsWith("half-cadence"));
  }

  @Test
  void callsNoLoopThatWrapsRoundAHalfCadence() {
    Reading reading =
        WrittenSong.in("C major")
            .section(SectionRole.VERSE, "A", "C | Am | F | G | C | Am | F | G | C | Am | F | G")
            .tune("c5@0-2 b4@12-15 b4@28-31 b4@44-48")
            .reading();
    assertThat(told(reading)).noneMatch(finding -> finding.startsWith("half-cadence"));
  }

  @Test
  void tellsTheNoteThatRestsBesideItsChord() {
    WrittenSong song = WrittenSong.in("C major").section(SectionRole.VERSE, "A", "F | C | F | C");
    assertThat(told(song.tune("b4@0-3 c5@3-4").reading())).contains("tension-tone 1-1");
    assertThat(told(song.tune("a4@0-3 c5@3-4").reading())).noneMatch(f -> f.startsWith("tension"));
    // Passing by on the way is no rest.
    assertThat(told(song.tune("a4@0-1 b4@1-1.5 c5@1.5-4").reading()))
        .noneMatch(f -> f.startsWith("tension"));
  }

  @Test
  void tellsTheNoteThatMeansSomethingNew() {
    WrittenSong song = WrittenSong.in("C major").section(SectionRole.VERSE, "A", "F | G | C | C");
    assertThat(told(song.tune("b4@2-6 c5@8-12").reading())).contains("reinterpreted-tone 1-2");
    assertThat(told(song.tune("a4@2-4 b4@4-6").reading()))
        .noneMatch(f -> f.startsWith("reinterpreted"));
  }

  @Test
  void tellsALateLift() {
    Reading reading =
        WrittenSong.in("C major")
            .section(SectionRole.CHORUS, "A", "C | F | G | C")
            .section(SectionRole.VERSE, "B", "Am | F | Dm | G")
            .section(SectionRole.CHORUS, "A", "C | F | G | C")
            .key("D major")
            .section(SectionRole.CHORUS, "A", 2, 0, "D | G | A | D")
            .reading();
    assertThat(told(reading)).contains("key-lift 13-16");
    assertThat(told(reading)).noneMatch(finding -> finding.startsWith("modulation"));
  }

  @Test
  void tellsANewHomeThatACadenceConfirms() {
    Reading reading =
        WrittenSong.in("C major")
            .section(SectionRole.VERSE, "A", "C | F | G | C | C | F | G | C")
            .key("Eb major")
            .section(SectionRole.BRIDGE, "B", "Ab | Bb | Eb | Eb | Cm | Ab | Bb | Eb")
            .key("C major")
            .section(SectionRole.VERSE, "A", "C | F | G | C | C | F | G | C")
            .reading();
    assertThat(told(reading)).contains("modulation 9-16");
    // The way home is no modulation.
    assertThat(told(reading)).filteredOn(f -> f.startsWith("modulation")).hasSize(1);
  }

  /** The definition is Open Music Theory's: another tonic, confirmed by a cadence. */
  @Test
  void tellsANewHomeByTheChordsOfASectionWhereTheKeyIsReadAsOne() {
    WrittenSong song =
        WrittenSong.in("A major").section(SectionRole.VERSE, "A", "A | D | E | A | A | D | E | A");
    WrittenSong away = song.section(SectionRole.BRIDGE, "B", "C | Em | F | Am | C | Dm | G | C");
    assertThat(told(away.reading())).contains("modulation 9-16");
    assertThat(told(away.reading())).noneMatch(finding -> finding.startsWith("borrowed-chord"));
    // Borrowed chords around the old tonic are no new home.
    WrittenSong borrowing =
        WrittenSong.in("A major")
            .section(SectionRole.VERSE, "A", "A | D | E | A | A | D | E | A")
            .section(SectionRole.BRIDGE, "B", "C | F | G | A | C | Dm | G | A");
    assertThat(told(borrowing.reading())).noneMatch(f -> f.startsWith("modulation"));
    // Nor is a section at home, though it closes in the relative minor.
    WrittenSong relative =
        WrittenSong.in("A major")
            .section(SectionRole.VERSE, "A", "A | D | E | A | A | D | E | A")
            .section(SectionRole.BRIDGE, "B", "Bm | D | E | F#m | Bm | D | C# | F#m");
    assertThat(told(relative.reading())).noneMatch(f -> f.startsWith("modulation"));
  }

  @Test
  void tellsALateLiftThatTheFormTakesForNewMusic() {
    Reading lifted =
        WrittenSong.in("C major")
            .section(SectionRole.VERSE, "A", "Am | F | Dm | G")
            .section(SectionRole.CHORUS, "B", "C | F | G | Am")
            .key("D major")
            .section(SectionRole.OTHER, "C", "D | G | A | Bm")
            .reading();
    assertThat(told(lifted)).contains("key-lift 9-12");
    Reading other =
        WrittenSong.in("C major")
            .section(SectionRole.VERSE, "A", "Am | F | Dm | G")
            .section(SectionRole.CHORUS, "B", "C | F | G | Am")
            .key("D major")
            .section(SectionRole.OTHER, "C", "D | Bm | A | G")
            .reading();
    assertThat(told(other)).noneMatch(finding -> finding.startsWith("key-lift"));
  }

  @Test
  void tellsAnEndingThatIsNotHome() {
    WrittenSong song = WrittenSong.in("C major");
    assertThat(told(song.section(SectionRole.VERSE, "A", "C | G | C | F").reading()))
        .contains("unresolved-ending 4-4");
    WrittenSong ninth = WrittenSong.in("C major").section(SectionRole.VERSE, "A", "C | F | G | C");
    assertThat(told(ninth.tune("e4@0-2 d5@12-16").reading())).contains("unresolved-ending 4-4");
    assertThat(told(ninth.tune("e4@0-2 c5@12-16").reading()))
        .noneMatch(finding -> finding.startsWith("unresolved"));
    WrittenSong blues = WrittenSong.in("C major").section(SectionRole.VERSE, "A", "C7 | F7 | C7");
    assertThat(told(blues.reading())).noneMatch(finding -> finding.startsWith("unresolved"));
  }

  @Test
  void carriesTheDoubtOfTheChordsItRestsOn() {
    Reading doubtful =
        WrittenSong.in("C major")
            .sure(0.6)
            .section(SectionRole.VERSE, "A", "C | D7 | G | C")
            .reading();
    Finding applied = new Techniques(HarmonyFinders.all(), Calibration.NONE).in(doubtful).get(0);
    assertThat(applied.probability()).isBetween(0.2, 0.4);
  }

  /** Every sentence and piece of evidence has its words. */
  @Test
  void hasWordsForAllItSays() {
    Texts english = Texts.in(Locale.ENGLISH);
    Reading reading =
        WrittenSong.in("C major")
            .section(SectionRole.VERSE, "A", "C | Ab | Bb | C | D7 | G | Dm | D")
            .section(SectionRole.CHORUS, "B", "C | G/B | Am | Em/G | F | Fm | C | F")
            .tune("b4@16-20 d5@32-36")
            .reading();
    List<Finding> findings = new Techniques(HarmonyFinders.all(), Calibration.NONE).in(reading);
    assertThat(findings).hasSizeGreaterThan(4);
    for (Finding finding : findings) {
      assertThat(english.say(finding.summary())).doesNotContain("{").endsWith(".");
      finding.evidence().forEach(piece -> assertThat(english.say(piece)).doesNotContain("{"));
    }
  }
}
