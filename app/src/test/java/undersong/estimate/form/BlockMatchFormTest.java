package undersong.estimate.form;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Form;
import undersong.reading.Section;
import undersong.time.Span;

class BlockMatchFormTest {
  private static final int[] VERSE_ROOTS = {60, 57, 65, 67, 60, 57, 62, 67};
  private static final int[] CHORUS_ROOTS = {65, 67, 64, 57, 65, 67, 60, 60};

  private final BlockMatchForm estimator = new BlockMatchForm(FormSettings.DEFAULTS);

  /** Verse, chorus, verse, chorus lifted by two semitones: 8 bars each. */
  private static BarwiseSound song() {
    BarwiseSound sound = new BarwiseSound();
    verse(sound);
    chorus(sound, 0);
    verse(sound);
    chorus(sound, 2);
    return sound;
  }

  private static void verse(BarwiseSound sound) {
    for (int root : VERSE_ROOTS) {
      sound.bar(root, root == 57 || root == 62 ? 3 : 4, -24, 4);
    }
  }

  private static void chorus(BarwiseSound sound, int lift) {
    for (int root : CHORUS_ROOTS) {
      sound.bar(root + lift, root == 64 || root == 57 ? 3 : 4, -12, 8);
    }
  }

  private Derived<Form> form(BarwiseSound sound, Correction... said) {
    List<CorrectionEntry> entries = new ArrayList<>();
    for (Correction correction : said) {
      entries.add(new CorrectionEntry(entries.size(), "listener", Instant.EPOCH, correction));
    }
    return estimator.estimate(sound.features(), sound.bars(), new Corrections(entries));
  }

  private static List<String> letters(Form form) {
    return form.sections().stream().map(Section::letter).toList();
  }

  @Test
  void findsWhereTheMusicChangesAndWhatComesBack() {
    Form form = form(song()).value();
    assertThat(letters(form)).containsExactly("A", "B", "A", "B");
    assertThat(form.sections().stream().map(Section::firstBar)).containsExactly(1, 9, 17, 25);
    assertThat(form.sections().get(3).occurrence()).isEqualTo(2);
  }

  @Test
  void knowsACopyThatWasLifted() {
    assertThat(form(song()).value().sections().get(3).transposedSemitones()).isEqualTo(2);
  }

  @Test
  void putsABoundaryWhereTheListenerSaysOne() {
    Form form = form(song(), new Correction.BoundaryAt(8.3)).value();
    assertThat(form.sections().stream().map(Section::firstBar)).contains(5);
  }

  @Test
  void takesABoundaryAwayWhereTheListenerSaysNone() {
    Form form = form(song(), new Correction.NoBoundaryAt(32)).value();
    assertThat(form.sections().stream().map(Section::firstBar)).doesNotContain(17);
  }

  @Test
  void theNewestWordWins() {
    Form form =
        form(song(), new Correction.NoBoundaryAt(32), new Correction.BoundaryAt(32)).value();
    assertThat(form.sections().stream().map(Section::firstBar)).contains(17);
  }

  @Test
  void listsABoundaryThatFitsNowhere() {
    Correction outside = new Correction.BoundaryAt(500);
    assertThat(form(song(), outside).unplaced()).containsExactly(outside);
  }

  @Test
  void sectionsLikeTheNamedOneFollow() {
    Form form = form(song(), new Correction.SamenessOver(new Span(16, 32), "R")).value();
    assertThat(letters(form)).containsExactly("A", "R", "A", "R");
  }

  @Test
  void hearsOneSectionInSilence() {
    BarwiseSound silence = new BarwiseSound();
    for (int bar = 0; bar < 8; bar++) {
      silence.bar(60, 4, -120, 0);
    }
    assertThat(form(silence).value().sections()).hasSize(1);
  }

  /** A last chord that rings on is part of the section it ends (common practice, no source). */
  @Test
  void callsARingingEndNoSection() {
    BarwiseSound sound = song();
    sound.bar(60, 4, -40, 0).bar(60, 4, -60, 0);
    List<Section> sections = form(sound).value().sections();
    assertThat(sections.stream().map(Section::firstBar)).containsExactly(1, 9, 17, 25);
    assertThat(sections.get(3).span().endSeconds()).isEqualTo(68);
  }

  /** Eight bars of their own at the end are a section, however quiet. */
  @Test
  void tellsALongQuietEnding() {
    BarwiseSound sound = song();
    for (int bar = 0; bar < 8; bar++) {
      sound.bar(62 + bar % 2, 3, -40, 1);
    }
    assertThat(form(sound).value().sections().stream().map(Section::firstBar)).contains(33);
  }

  @Test
  void givesTheSameAnswerTwice() {
    assertThat(form(song())).isEqualTo(form(song()));
  }

  @Test
  void sectionsCoverTheRecordingWithoutGaps() {
    List<Section> sections = form(song()).value().sections();
    assertThat(sections.get(0).span().startSeconds()).isZero();
    for (int i = 1; i < sections.size(); i++) {
      assertThat(sections.get(i).span().startSeconds())
          .isEqualTo(sections.get(i - 1).span().endSeconds());
    }
    assertThat(sections.get(sections.size() - 1).span().endSeconds()).isEqualTo(64);
  }
}
