package undersong.estimate.key;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import undersong.estimate.SoundedFeatures;
import undersong.reading.Bar;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.KeyRegion;
import undersong.reading.Keys;
import undersong.reading.Melody;
import undersong.reading.Member;
import undersong.reading.Meter;
import undersong.reading.Reading;
import undersong.reading.Section;
import undersong.reading.TimeSignature;
import undersong.theory.HarteSyntax;
import undersong.theory.Key;
import undersong.time.Span;

/** Progressions of the trade (common practice, no source), one chord a bar of two seconds. */
class ChordKeyEstimatorTest {
  private static Reading reading(String... chords) {
    List<ChordSpan> spans = new ArrayList<>();
    List<Bar> bars = new ArrayList<>();
    for (int i = 0; i < chords.length; i++) {
      Span span = new Span(2 * i, 2 * i + 2);
      spans.add(
          new ChordSpan(
              span,
              HarteSyntax.parse(chords[i]),
              Member.SOUNDING,
              Member.SOUNDING,
              Member.ABSENT,
              0.9,
              List.of(),
              Optional.empty()));
      bars.add(new Bar(i + 1, 4 * i, 4, TimeSignature.FOUR_FOUR, span));
    }
    return Reading.empty(2 * chords.length)
        .with(Facet.METER, Derived.of(new Meter(bars, 1, List.of())))
        .with(Facet.FORM, Derived.of(new Form(List.of())))
        .with(Facet.MELODY, Derived.of(Melody.NONE))
        .with(Facet.CHORDS, Derived.of(new Chords(spans)));
  }

  private static String[] times(int times, String progression) {
    List<String> chords = new ArrayList<>();
    for (int i = 0; i < times; i++) {
      chords.addAll(List.of(progression.split(" ")));
    }
    return chords.toArray(String[]::new);
  }

  private static Derived<Keys> derive(Reading reading, Correction... said) {
    List<CorrectionEntry> entries = new ArrayList<>();
    for (Correction correction : said) {
      entries.add(new CorrectionEntry(entries.size() + 1, "a", Instant.EPOCH, correction));
    }
    return new ChordKeyEstimator(KeySettings.DEFAULTS)
        .estimate(new SoundedFeatures(1, 0).features(), reading, new Corrections(entries));
  }

  private static Keys hear(Reading reading, Correction... said) {
    return derive(reading, said).value();
  }

  @ParameterizedTest
  @CsvSource({
    "C:maj F:maj G:maj C:maj, C major",
    "C:maj A:min F:maj G:maj, C major",
    "A:min F:maj C:maj G:maj, A natural minor",
    "A:min D:min E:7 A:min, A harmonic minor",
    "E:min A:maj E:min D:maj, E dorian",
    "G:maj F:maj C:maj G:maj, G mixolydian",
    "Eb:maj Ab:maj Bb:maj Eb:maj, Eb major",
    "E:min F:maj E:min E:min, E phrygian",
  })
  void namesTonicAndMode(String progression, String key) {
    Keys keys = hear(reading(times(4, progression)));
    assertThat(keys.regions()).hasSize(1);
    assertThat(keys.mainKey().orElseThrow()).hasToString(key);
  }

  /** Rock on a tonic without a third: the third is that of the chords that have one. */
  @ParameterizedTest
  @CsvSource({
    "B:5 A:5 B:5 A:5 B:min D:maj A:maj B:5, B natural minor",
    "E:5 G:5 A:5 E:5 E:min G:maj D:maj E:5, E natural minor",
    "E:5 A:5 B:5 E:5 E:maj A:maj B:maj E:5, E major",
  })
  void openChordsLeaveTheThirdToTheOthers(String progression, String key) {
    Keys keys = hear(reading(times(4, progression)));
    assertThat(keys.mainKey().orElseThrow()).hasToString(key);
  }

  /** A twelve-bar blues is in its tonic's major, however many sevenths it has. */
  @Test
  void takesABluesForMajor() {
    String blues = "G:7 G:7 G:7 G:7 C:7 C:7 G:7 G:7 D:7 C:7 G:7 D:7";
    assertThat(hear(reading(times(2, blues))).mainKey().orElseThrow()).hasToString("G major");
  }

  /** A key and the chords in it are written alike, or numerals speak of raised sevenths. */
  @Test
  void writesTheTonicAsTheChordsAreWritten() {
    assertThat(hear(reading(times(4, "C#:maj B:maj F#:maj C#:maj"))).mainKey().orElseThrow())
        .hasToString("C# mixolydian");
    assertThat(hear(reading(times(4, "Db:maj Cb:maj Gb:maj Db:maj"))).mainKey().orElseThrow())
        .hasToString("Db mixolydian");
  }

  @Test
  void placesALiftAtItsBarLine() {
    String[] before = times(4, "C:maj F:maj G:maj C:maj");
    String[] after = times(4, "D:maj G:maj A:maj D:maj");
    List<String> both = new ArrayList<>(List.of(before));
    both.addAll(List.of(after));
    Reading reading =
        reading(both.toArray(String[]::new))
            .with(
                Facet.FORM,
                Derived.of(
                    new Form(
                        List.of(
                            new Section(new Span(0, 32), 1, 16, "A", 1, 0, 0.9),
                            new Section(new Span(32, 64), 17, 32, "A", 2, 2, 0.9)))));
    List<KeyRegion> regions = hear(reading).regions();
    assertThat(regions).extracting(r -> r.key().toString()).containsExactly("C major", "D major");
    assertThat(regions.get(1).span().startSeconds()).isEqualTo(32);
  }

  /** The dominant of the dominant raises the fourth degree for a bar and makes nothing lydian. */
  @Test
  void takesTheDominantOfTheDominantForWhatItIs() {
    Keys keys = hear(reading(times(4, "Bb:maj Bb:maj C:7 C:7 F:7 F:7 Bb:maj Bb:maj")));
    assertThat(keys.mainKey().orElseThrow()).hasToString("Bb major");
  }

  @Test
  void hearsNoKeyInSilence() {
    assertThat(hear(reading("N", "N", "N")).regions()).isEmpty();
  }

  @Test
  void letsWhatWasSaidStandExactly() {
    Span span = new Span(24.3, 39.9);
    Keys keys =
        hear(
            reading(times(8, "C:maj F:maj G:maj C:maj")),
            new Correction.KeyOver(span, Key.parse("A natural minor")),
            new Correction.KeyOver(span, Key.parse("F lydian")));
    assertThat(keys.regions()).hasSize(3);
    assertThat(keys.regions().get(1).span()).isEqualTo(span);
    assertThat(keys.keyAt(30).orElseThrow()).hasToString("F lydian");
    assertThat(keys.keyAt(2).orElseThrow()).hasToString("C major");
    assertThat(keys.keyAt(60).orElseThrow()).hasToString("C major");
  }

  @Test
  void listsWhatLiesBeyondTheRecording() {
    Correction beyond = new Correction.KeyOver(new Span(900, 901), Key.parse("C major"));
    assertThat(derive(reading("C:maj", "G:maj"), beyond).unplaced()).containsExactly(beyond);
  }

  @Test
  void answersTheSameTwice() {
    Reading reading = reading(times(3, "A:min F:maj C:maj G:maj"));
    assertThat(hear(reading)).isEqualTo(hear(reading));
  }
}
