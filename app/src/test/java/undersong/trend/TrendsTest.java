package undersong.trend;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.xml.sax.InputSource;
import undersong.technique.Technique;
import undersong.trend.Trend.Grouping;

class TrendsTest {
  private static final Counted BORROWED = Counted.technique(Technique.BORROWED_CHORD);

  private static CountedSong song(
      long id, int year, boolean borrowed, String numerals, double bits) {
    return new CountedSong(
        id,
        "song " + id,
        id % 2 == 0 ? Optional.of("Even Pair") : Optional.empty(),
        year == 0 ? Optional.empty() : Optional.of(year),
        "recording",
        borrowed ? Set.of("borrowed-chord") : Set.of(),
        numerals,
        Optional.of(bits));
  }

  private static List<CountedSong> songs(int eachDecade, int withIn1980s, int withIn1990s) {
    List<CountedSong> songs = new ArrayList<>();
    for (int i = 0; i < eachDecade; i++) {
      songs.add(song(i, 1980 + i % 10, i < withIn1980s, " I IV V ", i));
      songs.add(song(100 + i, 1990 + i % 10, i < withIn1990s, " I iii IV iv I ", i));
    }
    return songs;
  }

  @Test
  void tellsAChangeThatChanceWouldHardlyMake() {
    Trend trend = Trends.of(songs(20, 2, 15), BORROWED, Grouping.DECADE);
    assertThat(trend.groups()).extracting(Trend.Group::name).containsExactly("1980s", "1990s");
    assertThat(trend.groups().get(1).share()).isEqualTo(new Share(15, 20));
    assertThat(trend.change().orElseThrow().isTold()).isTrue();
    assertThat(trend.said()).contains("More common in 1990s than in 1980s, by 65 points");
    assertThat(Trends.of(songs(20, 15, 2), BORROWED, Grouping.DECADE).said()).contains("Rarer in");
  }

  @Test
  void tellsNoChangeWhereChanceWouldDo() {
    Trend trend = Trends.of(songs(10, 4, 5), BORROWED, Grouping.DECADE);
    assertThat(trend.change().orElseThrow().isTold()).isFalse();
    assertThat(trend.said()).contains("no change can be told");
  }

  @Test
  void saysPlainlyWhenNothingCanBeSaid() {
    assertThat(Trends.of(List.of(), BORROWED, Grouping.YEAR).said())
        .startsWith("Nothing can be said: there are 0 songs");
    List<CountedSong> few = songs(4, 1, 1);
    few.add(song(500, 0, true, " I ", 1));
    Trend trend = Trends.of(few, BORROWED, Grouping.DECADE);
    assertThat(trend.change()).isEmpty();
    assertThat(trend.ungrouped()).isEqualTo(1);
    assertThat(trend.said()).contains("cannot be said: fewer than two decades hold 5 songs");
  }

  @Test
  void groupsByArtist() {
    Trend trend = Trends.of(songs(6, 1, 1), BORROWED, Grouping.ARTIST);
    assertThat(trend.groups()).extracting(Trend.Group::name).containsExactly("Even Pair");
    assertThat(trend.ungrouped()).isEqualTo(6);
    assertThat(trend.change()).isEmpty();
  }

  /** Sevenths and inversions do not matter, degrees and thirds do; keys are not read across. */
  @Test
  void countsAProgression() {
    Counted walk = Counted.progression("Imaj7 iii, IV iv6");
    assertThat(walk.words()).isEqualTo("I iii IV iv");
    assertThat(walk.in().test(song(1, 0, false, " V I iii IV iv I ", 0))).isTrue();
    assertThat(walk.in().test(song(1, 0, false, " I iii | IV iv ", 0))).isFalse();
    assertThat(walk.in().test(song(1, 0, false, " bVI iii IV iv I ", 0))).isFalse();
    assertThat(walk.in().test(song(1, 0, false, " I iii IV IV ", 0))).isFalse();
    assertThat(Counted.progression("I V/V V").words()).isEqualTo("I II V");
    assertThatThrownBy(() -> Counted.progression("I H")).hasMessageContaining("\"H\"");
    assertThatThrownBy(() -> Counted.progression("I")).hasMessageContaining("two numerals");
  }

  @Test
  void setsASongApart() {
    List<CountedSong> shelf = songs(15, 0, 0);
    CountedSong odd = song(900, 1991, true, " I bII ", 40);
    Unusual unusual = Unusual.of(odd, shelf);
    assertThat(unusual.rare())
        .extracting(Unusual.Rare::technique)
        .containsExactly("borrowed-chord");
    assertThat(unusual.lessSurprising()).contains(new Share(30, 30));
    assertThat(unusual.said()).contains("Rare on this shelf: borrowed chord.").contains("30 of 30");
    assertThat(Unusual.of(odd, shelf.subList(0, 4)).said())
        .contains("cannot be said: 4 other songs");
    assertThat(Unusual.of(odd, songs(15, 10, 10)).rare()).isEmpty();
  }

  @Test
  void drawsItAsWellFormedXml() throws Exception {
    Counted odd = new Counted("a < b & \"c\"", song -> true);
    String svg = TrendPicture.svg(Trends.of(songs(6, 1, 5), odd, Grouping.YEAR));
    var document =
        DocumentBuilderFactory.newInstance()
            .newDocumentBuilder()
            .parse(new InputSource(new StringReader(svg)));
    assertThat(document.getElementsByTagName("circle").getLength()).isEqualTo(12);
    assertThat(document.getElementsByTagName("title").item(0).getTextContent())
        .startsWith("a < b & \"c\".");
  }
}
