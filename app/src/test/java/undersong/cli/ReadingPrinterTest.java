package undersong.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.Correction;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.Harmony;
import undersong.reading.Meter;
import undersong.reading.Reading;
import undersong.reading.Roles;
import undersong.reading.SampleReadings;
import undersong.reading.Tuning;
import undersong.shelf.Song;
import undersong.time.BeatGrid;

class ReadingPrinterTest {
  private static final Song SONG =
      new Song(
          1,
          "hash",
          Path.of("/music/low tide.wav"),
          24,
          Song.Words.NONE,
          new Song.Words(
              Optional.of("Low Tide"), Optional.of("The Sample Trio"), Optional.of(2024)),
          Instant.EPOCH,
          undersong.shelf.Origin.RECORDING,
          "");

  @Test
  void tellsTheSongInItsHeadAndItsFormInOneLine() {
    assertThat(print(SampleReadings.full()).lines().limit(4))
        .containsExactly(
            "Low Tide · The Sample Trio · 2024 · 0:24",
            "120 bpm, even · 4/4 · A natural minor, then B natural minor · A = 438 Hz (7 cents low)"
                + " ·",
            "-14.0 LUFS · room falls in 0.8 s",
            "Form: verse A 4 | bridge (works as chorus)? B? 4 | verse A 4");
  }

  @Test
  void showsTheBarsOfASectionWithChordsNumeralsAndBass() {
    assertThat(print(SampleReadings.full()))
        .contains(
            """
            0:16  Verse A · 2nd time · up 2 semitones · bars 9-12 · B natural minor
               9  |Bm                    |G                     |D                A -½ |(A)                   |
                   i                      bVI                    bIII             bVII
                   la                     fa                     do               sol
            """);
  }

  @Test
  void saysWhatIsOpenAndWhatElseItMayBe() {
    assertThat(print(SampleReadings.full()))
        .contains("|C? ")
        .contains("open: bar 7 C 40 %, else C5 10 %; bar 7 G beside N.C.");
  }

  @Test
  void noLineIsWiderThanThePage() {
    assertThat(print(SampleReadings.full()).lines())
        .allSatisfy(line -> assertThat(line.length()).isLessThanOrEqualTo(ReadingPrinter.COLUMNS));
  }

  @Test
  void listsWhatWasSaidButFitsNothing() {
    Reading reading =
        SampleReadings.full()
            .with(
                Facet.TUNING,
                new Derived<>(new Tuning(0, 1), List.of(new Correction.TuningIs(99))));
    assertThat(print(reading)).contains("fits nothing here: TuningIs");
  }

  @Test
  void withoutAPulseItTellsChordsByTheClock() {
    Reading reading =
        SampleReadings.full()
            .with(Facet.BEATS, Derived.of(new Beats(BeatGrid.NO_PULSE, 2, 1, 0, List.of())))
            .with(Facet.METER, Derived.of(new Meter(List.of(), 0, List.of())))
            .with(Facet.FORM, Derived.of(new Form(List.of())))
            .with(Facet.BASS, Derived.of(new Bass(List.of())))
            .with(Facet.HARMONY, Derived.of(new Harmony(List.of(), List.of())))
            .with(Facet.ROLES, Derived.of(new Roles(List.of())));
    assertThat(print(reading)).contains("no pulse · A natural minor").contains("\n0:02  F\n");
  }

  @Test
  void fourBusyBarsTakeTwoRows() {
    BarCell.ChordToken token = new BarCell.ChordToken(0, "Ebm7b5/Gb", "iiø65");
    BarCell busy = new BarCell(1, List.of(token, token, token), List.of());
    assertThat(busy.fitsIn(21)).isFalse();
    assertThat(busy.fitsIn(29)).isTrue();
    assertThat(busy.lines(29).get(0)).isEqualTo("Ebm7b5/Gb Ebm7b5/Gb Ebm7b5/Gb");
  }

  @Test
  void saysDistancesAndTimesAsMusiciansDo() {
    assertThat(List.of(0.25, 0.5, -0.5, 0.34, 1.0, 1.49, 0.98).stream().map(Words::beats))
        .containsExactly("¼", "½", "½", "⅓", "1", "1½", "1");
    assertThat(Words.time(187.9)).isEqualTo("3:07");
    assertThat(Words.time(3787)).isEqualTo("1:03:07");
    assertThat(List.of(1, 2, 3, 11, 22).stream().map(Words::ordinal))
        .containsExactly("1st", "2nd", "3rd", "11th", "22nd");
    // ISO 16: A4 = 440 Hz; 100 cents up is A#4 = 466.16 Hz, so 50 cents up is 452.9 Hz.
    assertThat(Words.tuning(new Tuning(50, 1))).isEqualTo("A = 453 Hz (50 cents high)");
  }

  private static String print(Reading reading) {
    return ReadingPrinter.print(SONG, reading);
  }
}
