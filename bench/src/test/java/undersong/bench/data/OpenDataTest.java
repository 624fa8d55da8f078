package undersong.bench.data;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Reads every data set whole: what is in it must come in, what is refused is counted. */
class OpenDataTest {
  private Path folder;

  @BeforeEach
  void needsTheData() {
    assumeTrue(OpenData.find().isPresent(), "UNDERSONG_DATA is not set: open data not read");
    folder = OpenData.find().orElseThrow();
  }

  private static void print(String set, Harvest<?> harvest) {
    System.out.printf("%s: %d read, refused %s%n", set, harvest.read().size(), harvest.refused());
  }

  @Test
  void readsBillboard() {
    Harvest<Chart> harvest = BillboardReader.readAll(folder.resolve("mcgill-billboard"));
    print("billboard", harvest);
    assertThat(harvest.read().size() + harvest.refused().size()).isEqualTo(400);
    assertThat(harvest.refused()).hasSizeLessThan(12);
  }

  @Test
  void readsPop909() throws IOException {
    Harvest<Chart> harvest = Pop909Reader.readAll(folder.resolve("pop909"));
    print("pop909", harvest);
    assertThat(harvest.read().size() + harvest.refused().size()).isEqualTo(60);
    assertThat(harvest.read())
        .hasSizeGreaterThan(54)
        .allSatisfy(c -> assertThat(c.tune()).hasSizeGreaterThan(60));
  }

  /** Four of five dance tunes end on the tonic that is written: the notes are read as they are. */
  @Test
  void readsFolkTunes() throws IOException {
    Harvest<Chart> harvest = FolkTuneReader.readAll(folder.resolve("nottingham"));
    System.out.printf("nottingham: %d read%n", harvest.read().size());
    assertThat(harvest.read().size() + harvest.refused().size()).isEqualTo(883);
    assertThat(harvest.read()).hasSizeGreaterThan(700);
    long home =
        harvest.read().stream()
            .filter(
                c ->
                    Math.floorMod(c.tune().get(c.tune().size() - 1).midiPitch(), 12)
                        == c.bars().get(0).key().tonic())
            .count();
    assertThat((double) home / harvest.read().size()).isGreaterThan(0.75);
  }

  @Test
  void readsTheRockCorpus() throws IOException {
    Path rock = folder.resolve("rock-corpus-rs200");
    for (RockCorpusReader.Annotator annotator : RockCorpusReader.Annotator.values()) {
      Harvest<Chart> harvest = RockCorpusReader.readAll(rock, annotator);
      print("rs200 " + annotator, harvest);
      assertThat(harvest.read().size() + harvest.refused().size()).isEqualTo(100);
      assertThat(harvest.refused()).hasSizeLessThan(15);
    }
    int tunes = 0;
    for (Path path : Harvest.list(rock.resolve("rs200_melody"))) {
      tunes += RockCorpusReader.tune(path).stream().mapToInt(java.util.List::size).sum();
    }
    assertThat(tunes).isGreaterThan(10_000);
    assertThat(RockCorpusReader.barSeconds(rock, RockCorpusReader.songs(rock).get(0)))
        .hasSizeGreaterThan(20);
  }

  @Test
  void readsSections() {
    Harvest<?> salami = SectionReader.readSalami(folder.resolve("salami"));
    print("salami", salami);
    assertThat(salami.read()).hasSizeGreaterThan(75);
    Harvest<?> harmonix = SectionReader.readHarmonix(folder.resolve("harmonix"));
    print("harmonix", harmonix);
    assertThat(harmonix.read()).hasSize(80);
  }

  @Test
  void readsScores() throws IOException {
    Harvest<?> sheets = LeadSheetReader.readAll(folder.resolve("openewld"), "ewld");
    print("openewld", sheets);
    assertThat(sheets.read()).hasSizeGreaterThan(110);
    Harvest<?> songs = LeadSheetReader.readAll(folder.resolve("when-in-rome-lieder"), "lied");
    print("lieder", songs);
    assertThat(songs.read()).hasSize(50);
    Harvest<?> analyses = RomanTextReader.readAll(folder.resolve("when-in-rome-lieder"));
    print("analyses", analyses);
    assertThat(analyses.read()).hasSize(50);
  }

  @Test
  void readsVoices() {
    Harvest<SoloVoiceReader.Solo> solo =
        SoloVoiceReader.readVocadito(folder.resolve("audio-vocadito"));
    assertThat(solo.read().get(0).pitch().frames()).isGreaterThan(5000);
    Harvest<?> choir = SoloVoiceReader.readChoir(folder.resolve("audio-dagstuhl-choir-1s"));
    print("choir", choir);
    assertThat(choir.read()).hasSize(4);
  }

  @Test
  void readsTempoMaps() throws IOException {
    RockRecordingReader.TwoStems song =
        RockRecordingReader.read(folder.resolve("audio-sectoid-war-of-freedom"), "sectoid");
    // its SOURCE.md: constant 140 bpm, 400 beats
    assertThat(song.bpm()).isCloseTo(140, within(0.001));
    assertThat(song.beats().size()).isBetween(390, 410);
  }
}
