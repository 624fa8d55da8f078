package undersong.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import undersong.reading.Reading;
import undersong.reading.TimeSignature;
import undersong.theory.NumeralSettings;
import undersong.theory.SyllableSettings;

class TablesAndChaptersTest {
  private static final Reading READING = SampleReadings.of(TimeSignature.FOUR_FOUR, 2, 11);
  private static final CsvTables TABLES =
      new CsvTables(READING, NumeralSettings.DEFAULTS, SyllableSettings.DEFAULTS);

  @Test
  void writesChaptersFromZero() {
    String[] lines = Chapters.lines(READING).split("\n");
    assertThat(lines).hasSize(4);
    assertThat(lines[0]).isEqualTo("0:00 Verse 1");
    assertThat(lines[1]).matches("0:1\\d Chorus 1");
  }

  /** WebVTT (W3C): header line, cues parted by blank lines, hh:mm:ss.ttt (from memory). */
  @Test
  void writesWebVtt() {
    String[] blocks = Chapters.webVtt(READING).split("\n\n");
    assertThat(blocks).hasSize(5);
    assertThat(blocks[0]).isEqualTo("WEBVTT");
    for (int i = 1; i < blocks.length; i++) {
      assertThat(blocks[i].strip())
          .matches(i + "\n\\d\\d:\\d\\d:\\d\\d\\.\\d{3} --> \\d\\d:\\d\\d:\\d\\d\\.\\d{3}\n.+");
    }
  }

  @Test
  void writesChordsSeenFromTheirKey() {
    String[] lines = TABLES.chords().split("\n");
    assertThat(lines).hasSize(1 + SampleReadings.BARS);
    assertThat(lines[0])
        .isEqualTo("start,end,bar,harte,symbol,key,numeral,borrowed,arrival_beats,probability");
    assertThat(lines[1]).contains(",1,D:min7/b3,Dm7/F,A harmonic minor,iv6/5,no,-0.500,0.650");
    assertThat(lines[3]).contains(",3,E:7(b9),E7(b9),A harmonic minor,V7,");
  }

  @Test
  void writesBeatsSectionsKeysAndNotes() {
    assertThat(TABLES.beats().split("\n")[1]).isEqualTo("1.235,,3");
    assertThat(TABLES.beats().split("\n")[3]).endsWith(",1,1");
    assertThat(TABLES.sections().split("\n")[4]).contains(",19,24,B,chorus,");
    assertThat(TABLES.keys().split("\n")[2]).contains(",D dorian,");
    String[] notes = TABLES.notes().split("\n");
    assertThat(notes[1]).startsWith("bass,").contains(",41.000,F2,fa,");
    assertThat(notes[notes.length - 1]).startsWith("melody,");
  }

  @Test
  void writesHeadersAloneWhereNothingWasHeard() {
    Reading nothing = Reading.empty(1);
    CsvTables tables = new CsvTables(nothing, NumeralSettings.DEFAULTS, SyllableSettings.DEFAULTS);
    for (String table :
        new String[] {
          tables.beats(), tables.chords(), tables.sections(), tables.keys(), tables.notes()
        }) {
      assertThat(table.split("\n")).hasSize(1);
    }
    assertThat(Chapters.lines(nothing)).isEmpty();
  }
}
