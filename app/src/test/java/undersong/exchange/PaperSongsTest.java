package undersong.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import undersong.estimate.harmony.KeyedHarmonyEstimator;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.trend.NumeralLine;

class PaperSongsTest {
  @TempDir Path folder;

  private static String line(PaperSong song) {
    Reading reading = song.chart().read(120);
    return NumeralLine.of(
        reading.with(Facet.HARMONY, Derived.of(KeyedHarmonyEstimator.of(reading))));
  }

  @Test
  void readsBothFormats() throws IOException {
    Path billboard = Files.createDirectories(folder.resolve("mcgill-billboard/annotations"));
    Files.writeString(
        billboard.resolve("9001.txt"),
        """
        # title: Low Lamp
        # artist: The Sample Trio
        # metre: 4/4
        # tonic: D

        0.0\tsilence
        0.4\tA, verse, | D:maj | F#:min7 | G:maj . G:min/b3 . | x2, (voice
        9.1\tB, chorus, | A:7 | D:maj |
        20.0\tend
        """);
    Files.writeString(billboard.resolve("9002.txt"), "# title: Nothing Here\n");
    Path rock = Files.createDirectories(folder.resolve("rock-corpus-rs200/rs200_harmony_exp"));
    Files.writeString(rock.resolve("low_lamp_dt.txt"), "[E] [4/4] i | bVII6 IV | V/V | R |\n");
    PaperSongs read = PaperSongs.in(folder);
    assertThat(read.refused())
        .hasSize(1)
        .first()
        .asString()
        .startsWith("9002.txt: it holds no bars");
    PaperSong first = read.songs().get(0);
    assertThat(first.title()).isEqualTo("Low Lamp");
    assertThat(first.artist()).isEqualTo("The Sample Trio");
    assertThat(first.source()).contains("CC0");
    assertThat(first.chart().bars()).hasSize(8);
    assertThat(line(first)).isEqualTo(" I iii IV iv I iii IV iv V I ");
    assertThat(line(read.songs().get(1))).isEqualTo(" i bVII IV II ");
    assertThat(read.songs().get(1).source()).contains("CC BY 4.0");
    assertThatThrownBy(() -> PaperSongs.in(folder.resolve("none"))).hasMessageContaining("neither");
  }

  /**
   * Counts of three-chord rows in RS200 as its own numeral files have them, read here as plain text
   * without any of the program's parsers. Source: T. de Clercq, D. Temperley, Popular Music 30(1),
   * 2011; CC BY 4.0.
   */
  @Test
  void countsWhatTheCorpusItselfWrites() throws IOException {
    String data = System.getenv("UNDERSONG_DATA");
    assumeTrue(data != null, "UNDERSONG_DATA is not set");
    Path corpus = Path.of(data);
    assumeTrue(Files.isDirectory(corpus.resolve("rock-corpus-rs200/rs200_harmony_exp")));
    List<PaperSong> songs =
        PaperSongs.in(corpus).songs().stream().filter(s -> s.id().startsWith("rs200")).toList();
    assertThat(songs).hasSizeGreaterThan(90);
    List<String> ours = new ArrayList<>();
    List<String> theirs = new ArrayList<>();
    for (PaperSong song : songs) {
      Path file =
          corpus.resolve(
              "rock-corpus-rs200/rs200_harmony_exp/" + song.id().substring(6) + "_dt.txt");
      ours.add(line(song));
      theirs.add(plainText(Files.readString(file)));
    }
    for (String row : List.of(" I IV V ", " I bVII IV ", " I vi IV V ", " IV V I ", " ii V I ")) {
      List<String> inOurs = ours.stream().filter(l -> l.contains(row)).toList();
      for (int i = 0; i < songs.size(); i++) {
        assertThat(ours.get(i).contains(row))
            .as("%s in %s", row, songs.get(i).id())
            .isEqualTo(theirs.get(i).contains(row));
      }
      assertThat(inOurs).as(row).isNotEmpty();
    }
  }

  /** Plain degrees of the file; whatever is not a plain triad or seventh is a question mark. */
  private static String plainText(String text) {
    Matcher token = Pattern.compile("\\[[^\\]]*\\]|[^\\s|\\[\\]]+").matcher(text);
    StringBuilder line = new StringBuilder(" ");
    String before = "";
    String tonic = "";
    while (token.find()) {
      String word = token.group();
      if (word.matches("\\[[A-G][#b]?\\]")) {
        if (!tonic.isEmpty() && !tonic.equals(word)) {
          line.append("| ");
          before = "";
        }
        tonic = word;
        continue;
      }
      if (word.startsWith("[") || word.equals(".") || word.equals("R") || word.startsWith("*")) {
        continue;
      }
      Matcher plain =
          Pattern.compile(
                  "([b#]*(?:VII|VI|IV|V|III|II|I|vii|vi|iv|v|iii|ii|i))[dM]?(?:13|11|9|7|65|64|6|43|42)?")
              .matcher(word);
      String numeral = plain.matches() ? plain.group(1) : "?";
      if (!numeral.equals(before)) {
        line.append(numeral).append(' ');
      }
      before = numeral;
    }
    return line.toString();
  }
}
