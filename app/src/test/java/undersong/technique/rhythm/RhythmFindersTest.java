package undersong.technique.rhythm;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import undersong.reading.BarTexture;
import undersong.reading.Beats;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Gesture;
import undersong.reading.HearingBand;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.reading.Texture;
import undersong.technique.WrittenSong;
import undersong.time.BeatGrid;
import undersong.time.Span;

/** Facts of the trade (common practice, no source) on songs written by hand. */
class RhythmFindersTest {
  private static final String VERSE = "C | F | G | C | Am | F | G | C";

  private static List<String> told(Reading reading) {
    return WrittenSong.told(RhythmFinders.all(), reading);
  }

  private static WrittenSong song() {
    return WrittenSong.in("C major");
  }

  @Test
  void tellsASectionWhoseChordsAllComeEarly() {
    Reading reading =
        song()
            .section(SectionRole.VERSE, "A", VERSE)
            .section(SectionRole.CHORUS, "B", 0, 0.5, "F | G | Am | C | F | G | Dm | C")
            .reading();
    assertThat(told(reading)).containsExactly("anticipated-changes 9-16");
  }

  @Test
  void callsNothingEarlyThatIsOnItsBeat() {
    assertThat(told(song().section(SectionRole.VERSE, "A", VERSE).reading())).isEmpty();
    // Two chords a bar, the second on the middle of the bar.
    String halves = "C F | G C | Am F | G C";
    assertThat(told(song().section(SectionRole.VERSE, "A", halves).reading())).isEmpty();
    // A tenth of a beat is feel, not anticipation.
    assertThat(told(song().section(SectionRole.VERSE, "A", 0, 0.1, VERSE).reading())).isEmpty();
  }

  @Test
  void tellsABassThatLeans() {
    WrittenSong verse = song().section(SectionRole.VERSE, "A", "C | C | C | C");
    String leaning = everyBar(4, 0, 1.5, 3.5);
    assertThat(told(verse.bass(leaning).reading())).containsExactly("syncopated-bass 1-4");
    assertThat(told(verse.bass(everyBar(4, 0, 1, 2, 3)).reading())).isEmpty();
  }

  @Test
  void tellsThreeThreeTwoFromStraightEighths() {
    WrittenSong verse = song().section(SectionRole.VERSE, "A", "C | C | C | C");
    assertThat(told(verse.bass(everyBar(4, 0, 1.5, 3)).reading()))
        .containsExactly("three-three-two 1-4");
    assertThat(told(verse.bass(everyBar(4, 0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5)).reading())).isEmpty();
  }

  /** A note that was not heard does not hide the grouping, but two notes a bar are none. */
  @Test
  void forgivesAMissedNoteOfTheGrouping() {
    WrittenSong verse = song().section(SectionRole.VERSE, "A", "C | C | C | C");
    String half = everyBar(2, 0, 1.5, 3) + " c2@8-9 c2@11-11.4 c2@12-13 c2@13.5-14";
    assertThat(told(verse.bass(half).reading())).containsExactly("three-three-two 1-4");
    assertThat(told(verse.bass(everyBar(4, 0, 3)).reading())).isEmpty();
  }

  /** A bass that enters later than its section, and ends before it, is told where it plays. */
  @Test
  void showsThreeThreeTwoFromWhereTheBassEnters() {
    WrittenSong verse = song().section(SectionRole.VERSE, "A", VERSE);
    assertThat(told(verse.bass(bars(2, 7, 0, 1.5, 3)).reading()))
        .containsExactly("three-three-two 3-7");
  }

  private static String everyBar(int bars, double... beats) {
    return bars(0, bars, beats);
  }

  private static String bars(int from, int end, double... beats) {
    StringBuilder notes = new StringBuilder();
    for (int bar = from; bar < end; bar++) {
      for (double beat : beats) {
        double at = 4 * bar + beat;
        notes.append("c2@").append(at).append('-').append(at + 0.4).append(' ');
      }
    }
    return notes.toString().strip();
  }

  @Test
  void tellsABarOfAnotherLength() {
    Reading reading = song().bar(4, 2).section(SectionRole.VERSE, "A", VERSE).reading();
    assertThat(told(reading)).containsExactly("meter-change 4-4");
  }

  @Test
  void callsHalfASongInAnotherMeterNoChange() {
    WrittenSong song = song();
    for (int bar = 2; bar <= 8; bar += 2) {
      song.bar(bar, 3);
    }
    assertThat(told(song.section(SectionRole.VERSE, "A", VERSE).reading())).isEmpty();
  }

  @Test
  void tellsATempoThatChangesAndStays() {
    assertThat(told(atTempo(0.5, 0.46))).containsExactly("tempo-change 8-9");
    // Three in a hundred is within what a band does.
    assertThat(told(atTempo(0.5, 0.485))).isEmpty();
    // Twice as fast is another level of the same pulse.
    assertThat(told(atTempo(0.5, 0.25))).isEmpty();
  }

  /** Sixteen bars whose beats are so long in their first and second half. */
  private static Reading atTempo(double first, double second) {
    Reading even =
        song()
            .section(SectionRole.VERSE, "A", VERSE)
            .section(SectionRole.VERSE, "A", VERSE)
            .reading();
    double[] beats = new double[65];
    for (int i = 1; i < beats.length; i++) {
      beats[i] = beats[i - 1] + (i <= 32 ? first : second);
    }
    return even.with(Facet.BEATS, Derived.of(new Beats(BeatGrid.of(beats), 2, 1, 1, List.of())));
  }

  @Test
  void tellsChordsThatChangeFaster() {
    Reading reading =
        song()
            .section(SectionRole.VERSE, "A", "C | C | F | F | G | G | C | C")
            .section(SectionRole.CHORUS, "B", "Am | F | G | C | Am | F | G | C")
            .reading();
    assertThat(told(reading)).containsExactly("harmonic-rhythm-change 9-16");
  }

  @Test
  void aSectionThatQuickensOnlyInPartsHasNoOtherRhythm() {
    Reading reading =
        song()
            .section(SectionRole.VERSE, "A", "C | C | F | F | G | G | C | C")
            .section(SectionRole.CHORUS, "B", "Am F | G C | Am F | G C | Am | Am | F | F")
            .reading();
    assertThat(told(reading)).isEmpty();
  }

  @Test
  void hearsBarsOfThreeWhereTheBarLinesGoOnInFour() {
    // Three bars of four, as they were read, over four bars of three, as they are played.
    assertThat(told(crossing(1, 2, 4, 5, 7, 8, 10, 11))).contains("meter-change 9-11");
    // Chords across the bar lines while the snare keeps 2 and 4.
    assertThat(told(crossing(1, 3, 5, 7, 9, 11))).doesNotContain("meter-change 9-11");
  }

  /**
   * Eight bars of four with the snare on 2 and 4; then chords and bass notes every three beats for
   * twelve beats, with the snare on these; then four bars as before.
   */
  private static Reading crossing(int... snares) {
    List<BarTexture> bars = new ArrayList<>();
    List<Double> levels = Collections.nCopies(HearingBand.values().length, -30.0);
    for (int bar = 0; bar < 19; bar++) {
      int first = 4 * (bar - 8);
      List<Double> strokes =
          bar < 8 || bar > 10
              ? List.of(1.0, 3.0)
              : Arrays.stream(snares)
                  .filter(beat -> beat >= first && beat < first + 4)
                  .mapToObj(beat -> (double) (beat - first))
                  .toList();
      bars.add(new BarTexture(1, levels, 1000, 4000, 0.1, strokes));
    }
    return song()
        .section(SectionRole.VERSE, "A", VERSE)
        .section(SectionRole.BRIDGE, "B", "C C C F | F F G G | G C C C")
        .section(SectionRole.CHORUS, "C", VERSE)
        .bass("c2@32-35 f2@35-38 g2@38-41 c2@41-44")
        .reading()
        .with(Facet.TEXTURE, Derived.of(new Texture(List.of(), bars, List.of(), List.of())));
  }

  @Test
  void tellsASectionWithABarTooMany() {
    WrittenSong song =
        song()
            .section(SectionRole.VERSE, "A", VERSE)
            .section(SectionRole.VERSE, "A", VERSE + " | C")
            .section(SectionRole.VERSE, "A", VERSE);
    assertThat(told(song.reading())).containsExactly("irregular-phrase 9-17");
  }

  /** The last chord may end the phrase or stand after it (common practice, no source). */
  @Test
  void countsALastSectionUpToItsLastChord() {
    WrittenSong two =
        song().section(SectionRole.VERSE, "A", VERSE).section(SectionRole.VERSE, "A", VERSE);
    assertThat(told(two.section(SectionRole.VERSE, "A", VERSE + " | F | C").reading()))
        .containsExactly("irregular-phrase 17-25");
    WrittenSong held =
        song().section(SectionRole.VERSE, "A", VERSE).section(SectionRole.VERSE, "A", VERSE);
    assertThat(told(held.section(SectionRole.VERSE, "A", VERSE + " | C").reading())).isEmpty();
  }

  @Test
  void callsAHalfVerseRegular() {
    Reading reading =
        song()
            .section(SectionRole.VERSE, "A", VERSE)
            .section(SectionRole.VERSE, "A", VERSE)
            .section(SectionRole.VERSE, "A", "C | F | G | C")
            .section(SectionRole.OUTRO, "Z", "C")
            .reading();
    assertThat(told(reading)).isEmpty();
  }

  @Test
  void tellsAStopOfTwoBeats() {
    assertThat(told(stop(7, 8, -20))).containsExactly("stop-time 4-4");
    // Six decibels are a breath, eight beats are a rest.
    assertThat(told(stop(7, 8, -6))).isEmpty();
    assertThat(told(stop(4, 8, -20))).isEmpty();
  }

  @Test
  void tellsABackbeatAtHalfTheRate() {
    assertThat(told(snare(1, 3))).isEmpty();
    assertThat(told(snare(2))).containsExactly("half-time-feel 9-12");
    // Once a bar on 4 is a fill, not half time.
    assertThat(told(snare(3))).isEmpty();
  }

  /** Eight bars with the snare on 2 and 4, then four with it on these beats, counted from 0. */
  private static Reading snare(double... beats) {
    List<BarTexture> bars = new ArrayList<>();
    List<Double> levels = Collections.nCopies(HearingBand.values().length, -30.0);
    for (int bar = 0; bar < 12; bar++) {
      List<Double> strokes = bar < 8 ? List.of(1.02, 2.98) : Arrays.stream(beats).boxed().toList();
      bars.add(new BarTexture(1, levels, 1000, 4000, 0.1, strokes));
    }
    return song()
        .section(SectionRole.VERSE, "A", VERSE)
        .section(SectionRole.BRIDGE, "B", "F | G | Am | C")
        .reading()
        .with(Facet.TEXTURE, Derived.of(new Texture(List.of(), bars, List.of(), List.of())));
  }

  private static Reading stop(double start, double end, double levelDb) {
    Gesture stop = new Gesture(Gesture.Kind.STOP, new Span(start, end), 0, levelDb, 0, 0.9);
    return song()
        .section(SectionRole.VERSE, "A", VERSE)
        .reading()
        .with(
            Facet.TEXTURE, Derived.of(new Texture(List.of(), List.of(), List.of(stop), List.of())));
  }
}
