package undersong.lesson.sketch;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Harmony;
import undersong.reading.Melody;
import undersong.reading.Reading;
import undersong.technique.Technique;

/** How far a sketch keeps away from the song it is made beside. */
class QuotationTest {
  @Test
  void aSketchDoesNotQuoteTheSongBesideIt() {
    Sketch song = SketchMaker.make(Technique.BORROWED_CHORD, 3, Optional.empty());
    Reading beside =
        song.reading().with(Facet.HARMONY, Derived.of(new Harmony(List.of(), List.of())));
    Sketch other = SketchMaker.make(Technique.BORROWED_CHORD, 3, Optional.of(beside));
    assertThat(other.scoreText()).as("drawn anew").isNotEqualTo(song.scoreText());
    assertThat(other.quoted().notes()).isLessThanOrEqualTo(Quotation.MOST_NOTES);
    assertThat(Quotation.between(song.reading(), List.of(), beside).notes())
        .as("the song quotes itself")
        .isEqualTo(song.reading().get(Facet.MELODY).notes().size());
  }

  /** The same seed would draw the song's own chords again: all of them in step with it. */
  @Test
  void aSketchDoesNotFollowTheSongsChordsForLong() {
    List<Technique> followed = new ArrayList<>();
    List<Technique> kept = new ArrayList<>();
    for (Technique technique : SketchMaker.known()) {
      Sketch song = SketchMaker.make(technique, 3, Optional.empty());
      Reading chordsAlone = song.reading().with(Facet.MELODY, Derived.of(new Melody(List.of())));
      int whole = Quotation.between(song.reading(), song.numerals(), chordsAlone).chords();
      if (whole > Quotation.MOST_CHORDS) {
        followed.add(technique);
        int chords = SketchMaker.make(technique, 3, Optional.of(chordsAlone)).quoted().chords();
        assertThat(chords).as(technique.id()).isLessThan(whole);
        if (chords <= Quotation.MOST_CHORDS) {
          kept.add(technique);
        }
      }
    }
    // A lift or a broken loop is a long succession by its nature: there it is only shorter.
    assertThat(followed).hasSizeGreaterThan(10);
    assertThat(kept).hasSizeGreaterThanOrEqualTo(followed.size() - 3);
    assertThat(kept).contains(Technique.CHORD_LOOP, Technique.HALF_TIME_FEEL, Technique.DUCKING);
  }
}
