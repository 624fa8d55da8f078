package undersong.study;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.exchange.TimedNote;
import undersong.lesson.LessonItem;
import undersong.render.WavWriter;
import undersong.shelf.Remark;
import undersong.technique.BarRange;
import undersong.time.Span;
import undersong.work.Trouble;

/** Notes written elsewhere, brought onto the shelf. */
class NotebookTest {
  @TempDir Path folder;

  @Test
  void notesComeInTogetherAndOnlyOnce() throws IOException {
    try (Study study = StandInStudy.in(folder)) {
      long song = study.study(tone()).song().id();
      Notebook notebook = study.notebook();
      List<TimedNote> notes =
          List.of(
              new TimedNote(12, OptionalDouble.of(14), "the bass leans"),
              new TimedNote(3, OptionalDouble.empty(), "pick-up"));

      assertThat(notebook.bringIn(song, "Ada", notes)).hasSize(2);
      assertThat(notebook.remarks(song))
          .extracting(Remark::words)
          .containsExactly("pick-up", "the bass leans");
      assertThat(notebook.bringIn(song, "Ada", notes)).isEmpty();
      assertThat(notebook.remarks(song)).hasSize(2);

      List<TimedNote> oneTooLate =
          List.of(
              new TimedNote(5, OptionalDouble.empty(), "fine"),
              new TimedNote(500, OptionalDouble.empty(), "after the end"));
      assertThatThrownBy(() -> notebook.bringIn(song, "Ada", oneTooLate))
          .isInstanceOf(Trouble.WrongUsage.class)
          .hasMessageContaining("must lie inside song");
      assertThat(notebook.remarks(song)).as("all or none").hasSize(2);
    }
  }

  /** The made-up reading has bars of two seconds from 0 s on. */
  @Test
  void remarksBecomeItemsOfALesson() throws IOException {
    try (Study study = StandInStudy.in(folder)) {
      long song = study.study(tone()).song().id();
      study.notebook().remark(song, "Ada", 5, OptionalDouble.empty(), "Hook\nas *she* sings it");
      study.notebook().remark(song, "Ada", 8.5, OptionalDouble.of(11), "answer");
      List<LessonItem> items = study.lessons().remarks(song);
      assertThat(items).extracting(LessonItem::heading).containsExactly("Hook", "answer");
      assertThat(items.get(0).words()).isEqualTo("Hook\nas *she* sings it");
      assertThat(items.get(0).span()).isEqualTo(new Span(4, 6));
      assertThat(items.get(0).example()).contains(new BarRange(3, 3));
      assertThat(items.get(1).span()).isEqualTo(new Span(8.5, 11));
      assertThat(items).allSatisfy(item -> assertThat(item.technique()).isEmpty());
    }
  }

  private Path tone() throws IOException {
    Path file = folder.resolve("song.wav");
    int frames = 24 * 44_100;
    try (WavWriter writer = new WavWriter(file, frames)) {
      for (int n = 0; n < frames; n++) {
        writer.write(0.3f * (float) Math.sin(2 * Math.PI * 440 * n / 44_100), 0);
      }
    }
    return file;
  }
}
