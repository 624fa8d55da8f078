package undersong.study;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.reading.Correction;
import undersong.render.WavWriter;
import undersong.shelf.Origin;
import undersong.shelf.Song;
import undersong.study.SongsWithoutSound.Checked;
import undersong.study.SongsWithoutSound.Remembered;
import undersong.technique.Technique;
import undersong.trend.Counted;
import undersong.trend.Share;
import undersong.trend.Trend.Grouping;
import undersong.work.Trouble;

class SongsWithoutSoundTest {
  @TempDir Path folder;
  private Study study;

  @BeforeEach
  void open() {
    study = StandInStudy.in(folder);
  }

  @AfterEach
  void close() {
    study.close();
  }

  private static Remembered remembered(String numerals, String figure, List<Technique> techniques) {
    return new Remembered(
        new Song.Words(Optional.of("The Other One"), Optional.of("Even Pair"), Optional.of(1987)),
        "",
        numerals,
        figure,
        techniques,
        "the chords of the chorus");
  }

  private Path chart() throws IOException {
    Path rock = folder.resolve("data/rock-corpus-rs200/rs200_harmony_exp");
    Files.createDirectories(rock);
    Files.writeString(
        rock.resolve("low_lamp_dt.txt"), "[E] [4/4] I | iv | I | iv | I | iv | I | iv |");
    return folder.resolve("data");
  }

  private long recording() throws IOException {
    Path file = folder.resolve("low tide.wav");
    int frames = 24 * 44_100;
    try (WavWriter writer = new WavWriter(file, frames)) {
      for (int n = 0; n < frames; n++) {
        writer.write(0.5f * (float) Math.sin(n / 20.0), 0);
      }
    }
    return study.study(file).song().id();
  }

  @Test
  void chartsAreLoadedOnceAndKeptApart() throws IOException {
    assertThat(study.withoutSound().loadCharts(chart()).added()).isEqualTo(1);
    var again = study.withoutSound().loadCharts(chart());
    assertThat(again.added()).isZero();
    assertThat(again.known()).isEqualTo(1);
    assertThat(study.songs("")).isEmpty();
    Song song = study.songs("chart", Set.of(Origin.CHART)).get(0).song();
    assertThat(song.source()).contains("CC BY 4.0");
    assertThat(study.findings(song.id()))
        .extracting(finding -> finding.technique())
        .contains(Technique.BORROWED_CHORD)
        .doesNotContain(Technique.UNRESOLVED_ENDING);
    Counted fall = Counted.progression("I iv");
    Set<Origin> own = Set.of(Origin.RECORDING);
    assertThat(study.trends().of(fall, Grouping.DECADE, own, "").all()).isEqualTo(new Share(0, 0));
    assertThat(study.trends().of(fall, Grouping.ORIGIN, Set.of(Origin.CHART), "").all())
        .isEqualTo(new Share(1, 1));
    assertThatThrownBy(() -> study.correct(song.id(), new Correction.TuningIs(5)))
        .isInstanceOf(Trouble.WrongUsage.class)
        .hasMessageContaining("known from a chart only");
    assertThatThrownBy(() -> study.withoutSound().loadCharts(folder))
        .isInstanceOf(Trouble.WrongUsage.class);
  }

  @Test
  void whatIsRememberedIsFoundAndCountedApart() {
    long id =
        study
            .withoutSound()
            .remember(
                remembered("I iii IV iv", "do re mi", List.of(Technique.KEY_LIFT)), "listener");
    assertThat(study.songs("even memory")).hasSize(1);
    assertThat(study.withoutSound().memory(id).orElseThrow().recordingId()).isEmpty();
    Counted lift = Counted.technique(Technique.KEY_LIFT);
    assertThat(study.trends().of(lift, Grouping.DECADE, Set.of(Origin.RECORDING), "").all().of())
        .isZero();
    assertThat(study.trends().of(lift, Grouping.DECADE, Set.of(Origin.MEMORY), "").all())
        .isEqualTo(new Share(1, 1));
    assertThat(
            study
                .trends()
                .of(Counted.progression("iii IV iv"), Grouping.ORIGIN, Set.of(Origin.values()), "")
                .all())
        .isEqualTo(new Share(1, 1));
    assertThat(study.findings(id)).isEmpty();
  }

  /** The made-up recording plays Am F C G in A minor. */
  @Test
  void aRecordingConfirmsWhatItHolds() throws IOException {
    long recording = recording();
    long right = study.withoutSound().remember(remembered("i bVI bIII", "", List.of()), "listener");
    assertThat(study.withoutSound().check(right, recording))
        .containsExactly(new Checked("the chords i bVI bIII", true));
    assertThat(study.withoutSound().memory(right).orElseThrow().recordingId()).hasValue(recording);
    long wrong =
        study
            .withoutSound()
            .remember(remembered("I V", "do ra ti ra", List.of(Technique.FADE_OUT)), "listener");
    assertThat(study.withoutSound().check(wrong, recording))
        .extracting(Checked::confirmed)
        .containsExactly(false, false, false);
    assertThatThrownBy(() -> study.withoutSound().check(recording, recording))
        .hasMessageContaining("not from memory");
    assertThatThrownBy(() -> study.withoutSound().check(right, wrong))
        .hasMessageContaining("known from a memory only");
  }

  @Test
  void whatCannotBeReadIsRefused() {
    for (Remembered bad :
        List.of(
            remembered("I H", "", List.of()),
            remembered("", "do", List.of()),
            remembered("", "do bo", List.of()))) {
      assertThatThrownBy(() -> study.withoutSound().remember(bad, "listener"))
          .isInstanceOf(Trouble.WrongUsage.class)
          .hasMessageContaining("cannot be read");
    }
    assertThat(study.songs("")).isEmpty();
  }

  @Test
  void aShelfGoesOutAsJamsAndComesInAgain() throws IOException {
    long recording = recording();
    study.withoutSound().loadCharts(chart());
    Path out = folder.resolve("out");
    Set<Origin> all = Set.of(Origin.values());
    assertThat(study.jams().write(out, all).written()).isEqualTo(2);
    assertThat(study.trends().of(Counted.progression("I iv"), Grouping.ORIGIN, all, "").all())
        .isEqualTo(new Share(1, 2));

    Files.writeString(out.resolve("bad.jams"), "{}");
    JamsFolder.Outcome back = study.jams().read(out, "second listener");
    assertThat(back.corrected()).isEqualTo(1);
    assertThat(back.known()).isEqualTo(1);
    assertThat(back.failed()).singleElement().asString().startsWith("bad.jams: ");
    assertThat(study.steps(recording))
        .singleElement()
        .satisfies(step -> assertThat(step.author()).isEqualTo("second listener"));

    Path other = Files.createDirectories(folder.resolve("other"));
    try (Study elsewhere = StandInStudy.in(other)) {
      JamsFolder.Outcome in = elsewhere.jams().read(out, "listener");
      assertThat(in.written()).isEqualTo(2);
      assertThat(elsewhere.jams().read(out, "listener").known()).isEqualTo(2);
      assertThat(elsewhere.songs("", Set.of(Origin.CHART)))
          .extracting(entry -> entry.song().title())
          .containsExactlyInAnyOrder("low tide", "low_lamp");
      assertThat(
              elsewhere
                  .trends()
                  .of(Counted.progression("I iv I"), Grouping.ORIGIN, Set.of(Origin.CHART), "")
                  .all())
          .isEqualTo(new Share(1, 2));
      assertThat(
              elsewhere
                  .trends()
                  .of(Counted.progression("i bVI bIII"), Grouping.ORIGIN, Set.of(Origin.CHART), "")
                  .all())
          .isEqualTo(new Share(1, 2));
      // Once the recording itself is studied, it is heard, not read.
      Song heard = elsewhere.study(folder.resolve("low tide.wav")).song();
      assertThat(heard.origin()).isEqualTo(Origin.RECORDING);
      assertThat(elsewhere.songs("")).hasSize(1);
    }
  }
}
