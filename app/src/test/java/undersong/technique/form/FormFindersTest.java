package undersong.technique.form;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import undersong.reading.BarTexture;
import undersong.reading.BarWidth;
import undersong.reading.Derived;
import undersong.reading.Dynamics;
import undersong.reading.Facet;
import undersong.reading.HearingBand;
import undersong.reading.Layer;
import undersong.reading.LayerKind;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.reading.Space;
import undersong.reading.Texture;
import undersong.technique.WrittenSong;
import undersong.time.Span;

/** Form as Doll 2011 and Osborn 2013 describe it, on songs written by hand. */
class FormFindersTest {
  private static final String EIGHT = "C | F | G | C | Am | F | G | C";

  private static List<String> told(Reading reading) {
    return WrittenSong.told(FormFinders.all(), reading);
  }

  /** One bar's sound. */
  private record Sound(
      double lufs, double onsets, double sideToMidDb, double noise, double lowDb) {}

  private static final Sound VERSE = new Sound(-20, 1, -14, 0.02, -24);
  private static final Sound CHORUS = new Sound(-14, 2, -6, 0.06, -18);

  /** A song with this sound, eight bars each. */
  private static Reading sounding(WrittenSong song, LayerKind[][] layers, Sound... sections) {
    List<Double> lufs = new ArrayList<>();
    List<Double> onsets = new ArrayList<>();
    List<BarWidth> widths = new ArrayList<>();
    List<BarTexture> textures = new ArrayList<>();
    List<Layer> stretches = new ArrayList<>();
    for (int s = 0; s < sections.length; s++) {
      Sound sound = sections[s];
      for (int bar = 0; bar < 8; bar++) {
        lufs.add(sound.lufs());
        onsets.add(sound.onsets());
        widths.add(
            new BarWidth(
                sound.sideToMidDb(),
                Collections.nCopies(
                    HearingBand.values().length,
                    new BarWidth.BandWidth(sound.sideToMidDb(), 0.5))));
        textures.add(
            new BarTexture(
                sound.onsets(),
                List.of(-60.0, sound.lowDb(), -30.0, -30.0, -40.0, -50.0),
                1000,
                4000,
                sound.noise()));
      }
      for (LayerKind kind : layers[s]) {
        Span span = new Span(16 * s, 16 * (s + 1));
        stretches.add(new Layer(kind, span, OptionalDouble.empty(), 0.9));
      }
    }
    return song.reading()
        .with(Facet.DYNAMICS, Derived.of(new Dynamics(-16, 5, lufs, onsets)))
        .with(Facet.SPACE, Derived.of(new Space(widths, List.of(), 0)))
        .with(Facet.TEXTURE, Derived.of(new Texture(stretches, textures, List.of(), List.of())));
  }

  private static LayerKind[][] nothing(int sections) {
    return new LayerKind[sections][0];
  }

  @Test
  void tellsAChorusThatBurstsOut() {
    WrittenSong song =
        WrittenSong.in("C major")
            .section(SectionRole.VERSE, "A", EIGHT)
            .section(SectionRole.CHORUS, "B", EIGHT);
    assertThat(told(sounding(song, nothing(2), VERSE, CHORUS)))
        .containsExactly("breakout-chorus 9-16");
    // Louder alone is not enough.
    Sound louder = new Sound(-14, 1, -14, 0.02, -24);
    assertThat(told(sounding(song, nothing(2), VERSE, louder))).isEmpty();
  }

  @Test
  void tellsNewMusicThatTopsTheSong() {
    Sound top = new Sound(-11, 3, -4, 0.06, -18);
    WrittenSong song =
        WrittenSong.in("C major")
            .section(SectionRole.VERSE, "A", EIGHT)
            .section(SectionRole.CHORUS, "B", EIGHT)
            .section(SectionRole.CHORUS, "B", EIGHT)
            .section(SectionRole.BRIDGE, "C", "Ab | Eb | Bb | F | Ab | Eb | Bb | F");
    assertThat(told(sounding(song, nothing(4), VERSE, CHORUS, CHORUS, top)))
        .contains("climax-at-end 25-32");
    // As loud as the chorus is no climax, and one that the chorus follows is a bridge.
    assertThat(told(sounding(song, nothing(4), VERSE, CHORUS, CHORUS, CHORUS)))
        .noneMatch(f -> f.startsWith("climax"));
    song.section(SectionRole.CHORUS, "B", EIGHT);
    assertThat(told(sounding(song, nothing(5), VERSE, CHORUS, CHORUS, top, CHORUS)))
        .noneMatch(f -> f.startsWith("climax"));
  }

  @Test
  void tellsAChorusWithoutItsFloor() {
    WrittenSong song =
        WrittenSong.in("C major")
            .section(SectionRole.CHORUS, "B", EIGHT)
            .section(SectionRole.CHORUS, "B", EIGHT);
    LayerKind[] full = {LayerKind.KICK, LayerKind.SNARE, LayerKind.BASS, LayerKind.LEAD};
    LayerKind[][] thin = {full, {LayerKind.LEAD}};
    Sound noFloor = new Sound(-18, 1, -6, 0.06, -40);
    assertThat(told(sounding(song, thin, CHORUS, noFloor))).containsExactly("drop-chorus 9-16");
    assertThat(told(sounding(song, new LayerKind[][] {full, full}, CHORUS, CHORUS))).isEmpty();
  }

  @Test
  void aChorusThatFadesIsNotThin() {
    WrittenSong song =
        WrittenSong.in("C major")
            .section(SectionRole.CHORUS, "B", EIGHT)
            .section(SectionRole.CHORUS, "B", EIGHT)
            .bass("c2@56-57 c2@58-59 c2@60-61 c2@62-63");
    Sound faded = new Sound(-18, 1, -6, 0.06, -40);
    Reading reading = sounding(song, nothing(2), CHORUS, faded);
    assertThat(told(reading)).contains("drop-chorus 9-16");
    Dynamics heard = reading.get(Facet.DYNAMICS);
    Dynamics fades =
        new Dynamics(
            heard.integratedLufs(),
            heard.rangeLu(),
            heard.barLufs(),
            heard.onsetsPerBeat(),
            Optional.of(new Span(27, 32)));
    assertThat(told(reading.with(Facet.DYNAMICS, Derived.of(fades))))
        .noneMatch(finding -> finding.startsWith("drop-chorus"));
  }

  @Test
  void tellsARiseIntoABoundary() {
    WrittenSong song =
        WrittenSong.in("C major")
            .section(SectionRole.VERSE, "A", "C | F | G | C")
            .section(SectionRole.CHORUS, "B", "C | F | G | C");
    assertThat(told(song.lufs(-20, -19, -17, -15, -14, -14, -14, -14).reading()))
        .containsExactly("build 1-4");
    WrittenSong level =
        WrittenSong.in("C major")
            .section(SectionRole.VERSE, "A", "C | F | G | C")
            .section(SectionRole.CHORUS, "B", "C | F | G | C");
    // A step at the boundary is no rise into it.
    assertThat(told(level.lufs(-20, -20, -20, -20, -14, -14, -14, -14).reading())).isEmpty();
  }

  @Test
  void tellsASongThatOpensWithItsChorus() {
    WrittenSong song =
        WrittenSong.in("C major")
            .section(SectionRole.INTRO, "I", "C | C")
            .section(SectionRole.CHORUS, "B", "C | F | G | C")
            .section(SectionRole.VERSE, "A", "Am | F | G | C")
            .section(SectionRole.CHORUS, "B", "C | F | G | C");
    assertThat(told(song.reading())).containsExactly("chorus-first 3-6");
    WrittenSong verseFirst =
        WrittenSong.in("C major")
            .section(SectionRole.VERSE, "A", "Am | F | G | C")
            .section(SectionRole.CHORUS, "B", "C | F | G | C");
    assertThat(told(verseFirst.reading())).isEmpty();
  }

  /** The same chords under another letter are a chorus the form did not know again. */
  @Test
  void callsNoOldMusicAClimax() {
    Sound top = new Sound(-11, 3, -4, 0.06, -18);
    WrittenSong song =
        WrittenSong.in("C major")
            .section(SectionRole.VERSE, "A", "Ab | Eb | Bb | F | Ab | Eb | Bb | F")
            .section(SectionRole.CHORUS, "B", EIGHT)
            .section(SectionRole.CHORUS, "B", EIGHT)
            .section(SectionRole.BRIDGE, "C", EIGHT);
    assertThat(told(sounding(song, nothing(4), VERSE, CHORUS, CHORUS, top)))
        .noneMatch(f -> f.startsWith("climax"));
  }

  @Test
  void tellsStoppingDeadFromFadingFromRingingOut() {
    String ends = "c2@0-4 c2@4-8 c2@28-31";
    String goesOn = "c2@0-4 c2@17-20 c2@20-24 c2@24-28 c2@28-32";
    String holds = "c2@0-4 c2@4-8 c2@16-31";
    assertThat(told(ending(15.5, 16.1, ends))).containsExactly("cold-ending 8-8");
    assertThat(told(ending(8, 15.5, goesOn))).containsExactly("fade-out 5-8");
    // A chord that rings for six seconds is neither: nothing goes on in it.
    assertThat(told(ending(9, 15.5, ends))).isEmpty();
    assertThat(told(ending(14, 16, ends))).isEmpty();
    // A last chord held for four bars and cut off does not stop dead.
    assertThat(told(ending(15.5, 16.1, holds))).isEmpty();
  }

  /** Eight bars that fall silent between these times, over this bass. */
  private static Reading ending(double from, double to, String bass) {
    WrittenSong song = WrittenSong.in("C major").section(SectionRole.VERSE, "A", EIGHT).bass(bass);
    List<Double> level = Collections.nCopies(8, -14.0);
    return song.reading()
        .with(
            Facet.DYNAMICS,
            Derived.of(new Dynamics(-14, 3, level, level, Optional.of(new Span(from, to)))));
  }

  @Test
  void hearsAChorusBurstOutWhereTheFormTakesVerseAndChorusForOne() {
    String chorus = "Am | F | G | C | Dm | F | G | Am";
    WrittenSong song =
        WrittenSong.in("C major")
            .section(SectionRole.VERSE, "A", EIGHT + " | " + chorus)
            .section(SectionRole.VERSE, "A", EIGHT + " | " + chorus);
    assertThat(told(sounding(song, nothing(4), VERSE, CHORUS, VERSE, CHORUS)))
        .contains("breakout-chorus 9-16");
    // What happens once is no chorus.
    assertThat(told(sounding(song, nothing(4), VERSE, VERSE, VERSE, CHORUS)))
        .noneMatch(finding -> finding.startsWith("breakout-chorus"));
  }

  @Test
  void hearsAThinCopyWhateverItIsCalled() {
    Sound thin = new Sound(-20, 1, -14, 0.02, -34);
    WrittenSong song =
        WrittenSong.in("C major")
            .section(SectionRole.CHORUS, "A", EIGHT)
            .section(SectionRole.OTHER, "B", EIGHT)
            .section(SectionRole.OTHER, "B", EIGHT);
    assertThat(told(sounding(song, nothing(3), CHORUS, thin, CHORUS))).contains("drop-chorus 9-16");
    // The first section of a song may be thin.
    WrittenSong first =
        WrittenSong.in("C major")
            .section(SectionRole.VERSE, "A", EIGHT)
            .section(SectionRole.VERSE, "A", EIGHT);
    assertThat(told(sounding(first, nothing(2), thin, CHORUS)))
        .noneMatch(finding -> finding.startsWith("drop-chorus"));
  }
}
