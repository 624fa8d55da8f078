package undersong.estimate.repeat;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import undersong.estimate.SoundedFeatures;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.feature.MadeUpHearing;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Form;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Repeat;
import undersong.reading.Repeat.ChordMember;
import undersong.reading.Repeat.NoteFate;
import undersong.reading.Repeats;
import undersong.render.DemoSong;
import undersong.render.DemoSongs;
import undersong.theory.HarteSyntax;
import undersong.time.Span;

class AlignedRepeatsTest {
  private static final Features SILENCE = new SoundedFeatures(30, 0).features();

  private static Repeats repeats(Reading reading) {
    return new AlignedRepeats(RepeatSettings.DEFAULTS)
        .estimate(SILENCE, reading, Corrections.NONE)
        .value();
  }

  @Test
  void aCopyThatIsTheSameDiffersInNothing() {
    Repeat repeat = repeats(TwoCopies.alike(0, "D:5", "A:min").reading()).repeats().get(0);
    assertThat(repeat.bars())
        .containsExactly(
            new Repeat.AlignedBar(5, List.of(1)),
            new Repeat.AlignedBar(6, List.of(2)),
            new Repeat.AlignedBar(7, List.of(3)),
            new Repeat.AlignedBar(8, List.of(4)));
    assertThat(repeat.changes()).isEmpty();
    assertThat(repeat.settled()).isEmpty();
  }

  /** A key lift moves everything: common practice, no source. */
  @Test
  void aCopyThatIsLiftedAsAWholeDiffersInNothing() {
    Repeat repeat = repeats(TwoCopies.alike(2, "D:5", "A:min").reading()).repeats().get(0);
    assertThat(repeat.changes()).isEmpty();
  }

  @Test
  void anAddedThirdIsToldAsNoteAndAsWhatItDoesToTheHarmony() {
    TwoCopies song = TwoCopies.alike(0, "G:5", "A:min");
    for (int bar : new int[] {4, 6}) {
      song.chords.set(bar, "G:maj");
      song.line.add(TwoCopies.note(2 * bar + 0.5, 0.45, 59));
    }
    Repeat repeat = repeats(song.reading()).repeats().get(0);
    assertThat(repeat.notes())
        .hasSize(2)
        .allSatisfy(
            note -> {
              assertThat(note.fate()).isEqualTo(NoteFate.ADDED);
              assertThat(note.part()).isEqualTo("line-1");
              assertThat(note.beat()).isEqualTo(2);
              assertThat(note.event().pitchClass()).isEqualTo(11);
              assertThat(note.semitonesAboveRoot()).contains(4);
              assertThat(note.probability()).isEqualTo(0.9);
            });
    assertThat(repeat.chords()).isEmpty();
    assertThat(repeat.settled()).hasSize(1);
    Repeat.Settled settled = repeat.settled().get(0);
    assertThat(settled.member()).isEqualTo(ChordMember.THIRD);
    assertThat(settled.before()).isEqualTo(HarteSyntax.parse("G:5"));
    assertThat(settled.after()).isEqualTo(HarteSyntax.parse("G:maj"));
    assertThat(settled.part()).isEqualTo("line-1");
    assertThat(settled.pitchClass()).isEqualTo(11);
    assertThat(settled.beat()).isEqualTo(2);
    assertThat(settled.bars()).containsExactly(5, 7);
  }

  /** A note that was heard all the same, though nobody took it for one, is not new. */
  @Test
  void whatTheEarHeardInTheEarlierCopyIsNotNewInTheLater() {
    TwoCopies song = TwoCopies.alike(0, "C:maj", "A:min");
    song.line.add(TwoCopies.note(8.5, 0.9, 64));
    MadeUpHearing once = hearing(song);
    MadeUpHearing twice = hearing(song);
    hear(twice, TwoCopies.note(0.5, 0.9, 64));
    assertThat(repeats(song, once).notes())
        .hasSize(1)
        .allSatisfy(note -> assertThat(note.event().midiPitch()).isEqualTo(64));
    assertThat(repeats(song, twice).notes()).isEmpty();
  }

  private static MadeUpHearing hearing(TwoCopies song) {
    MadeUpHearing hearing = new MadeUpHearing(30);
    List.of(song.bass, song.melody, song.line)
        .forEach(part -> part.forEach(note -> hear(hearing, note)));
    return hearing;
  }

  private static void hear(MadeUpHearing hearing, NoteEvent note) {
    int bin = (int) note.midiPitch() - 21;
    Span span = note.span();
    hearing.set(EarHead.NOTE_ONSET, bin, span.startSeconds(), span.startSeconds() + 0.04, 0.95);
    hearing.set(EarHead.NOTE_SUSTAIN, bin, span.startSeconds(), span.endSeconds(), 0.95);
  }

  private static Repeat repeats(TwoCopies song, MadeUpHearing hearing) {
    return new AlignedRepeats(RepeatSettings.DEFAULTS)
        .estimate(SILENCE.withHeard(hearing.activations()), song.reading(), Corrections.NONE)
        .value()
        .repeats()
        .get(0);
  }

  @Test
  void musicOverOtherChordsIsNotLaidNoteAgainstNote() {
    TwoCopies song = TwoCopies.alike(0, "C:maj", "A:min");
    song.line.add(TwoCopies.note(8.5, 0.9, 64));
    song.chords.set(5, "F:maj");
    assertThat(repeats(song.reading()).repeats().get(0).notes()).hasSize(1);
    song.chords.set(6, "D:min");
    assertThat(repeats(song.reading()).repeats().get(0).notes()).isEmpty();
    assertThat(repeats(song.reading()).repeats().get(0).chords()).hasSize(2);
  }

  @Test
  void tellsMovedAndRemovedNotesInTheLaterCopysPitch() {
    TwoCopies song = TwoCopies.alike(2, "C:maj", "A:min");
    int moved = song.melody.size() / 2;
    song.melody.set(moved, TwoCopies.note(8, 0.9, 77));
    song.melody.remove(moved + 1);
    Repeat repeat = repeats(song.reading()).repeats().get(0);
    assertThat(repeat.notes()).hasSize(2);
    Repeat.NoteChange first = repeat.notes().get(0);
    assertThat(first.fate()).isEqualTo(NoteFate.MOVED);
    assertThat(first.pitchBefore()).contains(74.0);
    assertThat(first.event().midiPitch()).isEqualTo(77);
    Repeat.NoteChange second = repeat.notes().get(1);
    assertThat(second.fate()).isEqualTo(NoteFate.REMOVED);
    assertThat(second.event().midiPitch()).isEqualTo(76);
    assertThat(second.span().startSeconds()).isEqualTo(9);
  }

  @Test
  void tellsOtherChordsLayersAndLevels() {
    TwoCopies song = TwoCopies.alike(0, "C:maj", "A:min");
    song.chords.set(7, "F:maj");
    song.barLufs.set(5, -10.0);
    song.line.removeIf(note -> note.span().startSeconds() < TwoCopies.COPY_SECONDS);
    Repeat repeat = repeats(song.reading()).repeats().get(0);
    assertThat(repeat.chords()).hasSize(1);
    assertThat(repeat.chords().get(0).bar()).isEqualTo(8);
    assertThat(repeat.chords().get(0).before()).isEqualTo(HarteSyntax.parse("A:min"));
    assertThat(repeat.layers()).hasSize(1);
    assertThat(repeat.layers().get(0).layer()).isEqualTo("line-1");
    assertThat(repeat.layers().get(0).entered()).isTrue();
    assertThat(repeat.levels()).hasSize(1);
    assertThat(repeat.levels().get(0).afterLufs()).isEqualTo(-10);
  }

  @Test
  void hearsNothingWhereNothingReturnsOrNothingSounds() {
    Reading once = TwoCopies.alike(0, "C:maj").reading();
    assertThat(repeats(once.with(Facet.FORM, Derived.of(new Form(List.of())))))
        .isEqualTo(Repeats.NONE);
    assertThat(
            repeats(
                once.with(
                    Facet.METER, Derived.of(new undersong.reading.Meter(List.of(), 0, List.of())))))
        .isEqualTo(Repeats.NONE);
  }

  /** The demo song says itself what its second verse does: its planted layered repeat. */
  @Test
  void findsWhatTheSecondVerseOfADemoSongSettles() {
    DemoSong song = DemoSongs.named("low-water");
    Reading truth = song.truth().reading();
    Reading silentRest = TwoCopies.alike(0, "C:maj").reading();
    Reading reading =
        truth
            .with(Facet.DYNAMICS, Derived.of(silentRest.get(Facet.DYNAMICS)))
            .with(Facet.SPACE, Derived.of(silentRest.get(Facet.SPACE)))
            .with(Facet.TEXTURE, Derived.of(silentRest.get(Facet.TEXTURE)));
    Optional<Repeat> verse =
        repeats(reading).repeats().stream()
            .filter(r -> r.letter().equals("A") && r.occurrence() == 2)
            .findFirst();
    assertThat(verse).isPresent();
    assertThat(verse.get().settled())
        .extracting(s -> HarteSyntax.print(s.before()) + " " + HarteSyntax.print(s.after()))
        .containsExactlyInAnyOrder("E:5 E:min", "D:5 D:maj", "A:5 A:min", "B:5 B:min");
  }
}
