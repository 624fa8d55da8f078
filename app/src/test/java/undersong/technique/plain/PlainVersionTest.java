package undersong.technique.plain;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.technique.Evidence;
import undersong.technique.Finding;
import undersong.technique.Sentence;
import undersong.technique.Technique;
import undersong.technique.WrittenSong;
import undersong.theory.LeadSheet;
import undersong.time.Span;

/**
 * What stands for the plain version of a bar is common practice, no source: the key's own triad on
 * the same letter, chords on the beat, root position.
 */
class PlainVersionTest {
  private static Finding finding(Technique technique, double from, double to) {
    Span span = new Span(from, to);
    return new Finding(
        technique,
        span,
        Optional.empty(),
        0.9,
        "alone",
        Sentence.of("summary"),
        List.of(new Evidence.Read(Facet.CHORDS, span, "")));
  }

  private static List<String> chords(Reading reading) {
    return reading.get(Facet.CHORDS).spans().stream()
        .map(chord -> LeadSheet.print(chord.symbol()))
        .toList();
  }

  private static Reading plain(Technique technique, double from, double to, Reading reading) {
    return PlainVersion.of(finding(technique, from, to), reading).orElseThrow();
  }

  @Test
  void aBorrowedChordBecomesTheKeysOwnAndItsNotesGoAlong() {
    Reading song =
        WrittenSong.in("C major")
            .section(SectionRole.VERSE, "A", "C | F | Fm | C")
            .tune("g4@0-4 a4@4-8 ab4@8-12 g4@12-16")
            .bass("c2@0-4 f2@4-8 ab2@8-12 c2@12-16")
            .reading();
    Reading plain = plain(Technique.BORROWED_CHORD, 4, 6, song);
    assertThat(chords(plain)).containsExactly("C", "F", "F", "C");
    assertThat(pitches(plain.get(Facet.MELODY).notes())).containsExactly(67, 69, 69, 67);
    assertThat(pitches(plain.get(Facet.BASS).notes())).containsExactly(36, 41, 45, 36);
  }

  @Test
  void aSecondaryDominantBecomesTheTriadOfItsDegree() {
    Reading song =
        WrittenSong.in("D major").section(SectionRole.VERSE, "A", "D | E7 | A | D").reading();
    assertThat(chords(plain(Technique.SECONDARY_DOMINANT, 2, 4, song)))
        .containsExactly("D", "Em", "A", "D");
  }

  @Test
  void theMajorFourthDegreeOfDorianIsMinorInPlainMinor() {
    Reading song =
        WrittenSong.in("D dorian").section(SectionRole.VERSE, "A", "Dm | G | Dm").reading();
    assertThat(chords(plain(Technique.MODAL_COLOUR, 2, 4, song))).containsExactly("Dm", "Gm", "Dm");
  }

  @Test
  void earlyChordsAndTheirBassComeOnTheBeat() {
    Reading song =
        WrittenSong.in("C major")
            .section(SectionRole.CHORUS, "A", 0, 0.5, "C | F | G | C")
            .bass("c2@0-3.5 f2@3.5-7.5 g2@7.5-11.5 c2@11.5-16")
            .reading();
    Reading plain = plain(Technique.ANTICIPATED_CHANGES, 0, 8, song);
    assertThat(plain.get(Facet.CHORDS).spans())
        .extracting(chord -> chord.span().startSeconds())
        .containsExactly(0.0, 2.0, 4.0, 6.0);
    List<NoteEvent> bass = plain.get(Facet.BASS).notes();
    assertThat(bass.get(1).span().startSeconds()).isCloseTo(2.0, within(1e-9));
    assertThat(bass.get(0).span().endSeconds()).isCloseTo(2.0, within(1e-9));
  }

  @Test
  void aLiftedCopyComesAtTheHeightOfTheOneBefore() {
    Reading song =
        WrittenSong.in("D major")
            .section(SectionRole.CHORUS, "A", "D | G")
            .key("E major")
            .section(SectionRole.CHORUS, "A", 2, 0, "E | A")
            .tune("f#4@0-4 g#4@8-12")
            .bass("d2@0-8 e2@8-12")
            .reading();
    Reading plain = plain(Technique.KEY_LIFT, 4, 8, song);
    assertThat(chords(plain)).containsExactly("D", "G", "D", "G");
    assertThat(pitches(plain.get(Facet.MELODY).notes())).containsExactly(66, 66);
    assertThat(pitches(plain.get(Facet.BASS).notes())).containsExactly(38, 38);
  }

  @Test
  void theBassGoesToTheRootsAndBarsOutsideStay() {
    Reading song =
        WrittenSong.in("C major")
            .section(SectionRole.VERSE, "A", "C | F/C | G/C | C/E")
            .bass("c2@0-4 c2@4-8 c2@8-12 e2@12-16")
            .reading();
    Reading plain = plain(Technique.PEDAL_POINT, 0, 6, song);
    assertThat(chords(plain)).containsExactly("C", "F", "G", "C/E");
    assertThat(pitches(plain.get(Facet.BASS).notes())).containsExactly(36, 41, 31, 40);
  }

  @Test
  void thirdsAreTakenFromTheKey() {
    Reading song =
        WrittenSong.in("A natural minor").section(SectionRole.VERSE, "A", "A5 | F5 | E5").reading();

    assertThat(chords(plain(Technique.WITHHELD_THIRD, 0, 6, song)))
        .containsExactly("Am", "F", "Em");
  }

  @Test
  void syncopationIsSetOnTheBeats() {
    Reading song =
        WrittenSong.in("C major")
            .section(SectionRole.VERSE, "A", "C")
            .bass("c2@0.5-2.5 e2@2.5-3.75")
            .reading();
    assertThat(plain(Technique.SYNCOPATED_BASS, 0, 2, song).get(Facet.BASS).notes())
        .extracting(note -> note.span().startSeconds())
        .containsExactly(0.0, 0.5, 1.0, 1.5);
  }

  @Test
  void whatLiesElsewhereOrChangesNothingHasNone() {
    Reading song = WrittenSong.in("C major").section(SectionRole.VERSE, "A", "C | F").reading();
    assertThat(PlainVersion.of(finding(Technique.ECHO, 0, 4), song)).isEmpty();
    assertThat(PlainVersion.of(finding(Technique.BORROWED_CHORD, 0, 4), song)).isEmpty();
  }

  private static List<Integer> pitches(List<NoteEvent> notes) {
    return notes.stream().map(note -> (int) Math.round(note.midiPitch())).toList();
  }
}
