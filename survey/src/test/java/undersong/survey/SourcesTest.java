package undersong.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.work.Trouble;

class SourcesTest {
  @TempDir private Path folder;

  @Test
  void folderGivesItsRecordingsFromBelowToo() throws IOException {
    Files.createDirectories(folder.resolve("b"));
    Files.writeString(folder.resolve("b/two.FLAC"), "");
    Files.writeString(folder.resolve("one.mp3"), "");
    Files.writeString(folder.resolve("cover.jpg"), "");
    assertThat(Sources.in(folder))
        .containsExactly(
            Source.of(folder.resolve("b/two.FLAC").toString()),
            Source.of(folder.resolve("one.mp3").toString()));
  }

  @Test
  void listGivesPathsAddressesAndWords() throws IOException {
    Path list =
        Files.writeString(
            folder.resolve("list.txt"),
            """
            # a remark
            songs/one.mp3\t1987\tSomebody\tOne

            /far/two.flac
            s3a://bucket/three.ogg\t\tElse
            """);
    assertThat(Sources.in(list))
        .containsExactly(
            new Source(folder.resolve("songs/one.mp3").toString(), 1987, "Somebody", "One"),
            Source.of("/far/two.flac"),
            new Source("s3a://bucket/three.ogg", 0, "Else", ""));
  }

  @Test
  void refusesWhatNamesNothing() throws IOException {
    Path wrongYear = Files.writeString(folder.resolve("list.txt"), "one.mp3\t'87\n");
    assertThatThrownBy(() -> Sources.in(wrongYear))
        .isInstanceOf(Trouble.WrongUsage.class)
        .hasMessageContaining("Line 1")
        .hasMessageContaining("'87");
    Path empty = Files.createDirectory(folder.resolve("empty"));
    assertThatThrownBy(() -> Sources.in(empty)).isInstanceOf(Trouble.WrongUsage.class);
    assertThatThrownBy(() -> Sources.in(folder.resolve("nowhere")))
        .isInstanceOf(Trouble.WrongUsage.class);
  }
}
