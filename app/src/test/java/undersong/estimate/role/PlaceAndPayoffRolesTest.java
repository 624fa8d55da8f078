package undersong.estimate.role;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import undersong.estimate.dynamics.BarLoudness;
import undersong.estimate.form.BarwiseSound;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.Melody;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Roles;
import undersong.reading.Section;
import undersong.reading.SectionRole;
import undersong.time.Span;

class PlaceAndPayoffRolesTest {
  /** Letters of four-bar sections and how loud each is; two seconds a bar. */
  private static Derived<Roles> roles(String letters, int[] levelsDb, Correction... said) {
    return roles(letters, "", levelsDb, said);
  }

  /**
   * @param sung letters of the sections in which a tune sounds throughout
   */
  private static Derived<Roles> roles(
      String letters, String sung, int[] levelsDb, Correction... said) {
    List<NoteEvent> tune = new ArrayList<>();
    BarwiseSound sound = new BarwiseSound();
    List<Section> sections = new ArrayList<>();
    for (int i = 0; i < letters.length(); i++) {
      for (int bar = 0; bar < 4; bar++) {
        sound.bar(60, 4, levelsDb[i], 4);
      }
      String letter = letters.substring(i, i + 1);
      int occurrence = 1 + (int) sections.stream().filter(s -> s.letter().equals(letter)).count();
      Span span = new Span(8 * i, 8 * i + 8);
      sections.add(new Section(span, 4 * i + 1, 4 * i + 4, letter, occurrence, 0, 1));
      if (sung.contains(letter)) {
        tune.add(new NoteEvent(span, 67, 1));
      }
    }
    Reading reading =
        sound
            .bars()
            .with(Facet.FORM, Derived.of(new Form(sections)))
            .with(Facet.MELODY, Derived.of(new Melody(tune)));
    reading =
        reading.with(
            Facet.DYNAMICS,
            new BarLoudness().estimate(sound.features(), reading, Corrections.NONE));
    List<CorrectionEntry> entries = new ArrayList<>();
    for (Correction correction : said) {
      entries.add(new CorrectionEntry(entries.size(), "listener", Instant.EPOCH, correction));
    }
    return new PlaceAndPayoffRoles().estimate(sound.features(), reading, new Corrections(entries));
  }

  private static List<SectionRole> places(Derived<Roles> roles) {
    return roles.value().sections().stream().map(Roles.NamedSection::place).toList();
  }

  /** Common practice, no source. */
  @Test
  void namesAPlainSongForm() {
    int[] levels = {-30, -24, -14, -24, -14, -22, -14, -30};
    assertThat(places(roles("IVCVCBCO", levels)))
        .containsExactly(
            SectionRole.INTRO,
            SectionRole.VERSE,
            SectionRole.CHORUS,
            SectionRole.VERSE,
            SectionRole.CHORUS,
            SectionRole.BREAK,
            SectionRole.CHORUS,
            SectionRole.OUTRO);
  }

  /** An instrumental that opens and closes a song is no verse (common practice, no source). */
  @Test
  void takesAnOpeningThatComesBackForNoVerse() {
    int[] levels = {-24, -22, -14, -22, -14, -24};
    assertThat(places(roles("IVCVCI", "VC", levels)))
        .containsExactly(
            SectionRole.INTRO,
            SectionRole.VERSE,
            SectionRole.CHORUS,
            SectionRole.VERSE,
            SectionRole.CHORUS,
            SectionRole.OUTRO);
  }

  @Test
  void tellsThePayoffFromThePlace() {
    int[] levels = {-30, -24, -14, -24, -14, -9};
    Roles.NamedSection last = roles("IVCVCX", levels).value().sections().get(5);
    assertThat(last.place()).isEqualTo(SectionRole.OUTRO);
    assertThat(last.function()).isEqualTo(SectionRole.CHORUS);
  }

  @Test
  void aNameSaidOnceGoesForTheSameMusic() {
    int[] levels = {-30, -24, -14, -24, -14, -22, -14, -30};
    Derived<Roles> roles =
        roles("IVCVCBCO", levels, new Correction.NameOver(new Span(8, 16), SectionRole.PRECHORUS));
    assertThat(places(roles).get(1)).isEqualTo(SectionRole.PRECHORUS);
    assertThat(places(roles).get(3)).isEqualTo(SectionRole.PRECHORUS);
    assertThat(roles.value().sections().get(1).probability()).isEqualTo(1);
  }

  @Test
  void listsANameThatFitsNowhere() {
    Correction outside = new Correction.NameOver(new Span(500, 510), SectionRole.VERSE);
    assertThat(roles("VCVC", new int[] {-24, -14, -24, -14}, outside).unplaced())
        .containsExactly(outside);
  }
}
