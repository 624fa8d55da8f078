package undersong.technique.production;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import undersong.reading.Derived;
import undersong.reading.Echo;
import undersong.reading.Echoes;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.SectionRole;
import undersong.reading.Voice;
import undersong.reading.Voices;
import undersong.technique.TechniqueFinder;
import undersong.technique.WrittenSong;
import undersong.time.Span;

class VoiceFindersTest {
  private static final List<TechniqueFinder> FINDERS =
      List.of(
          new VocalStack(VocalStack.Settings.DEFAULTS),
          new ResungEcho(ResungEcho.Settings.DEFAULTS));

  private static Reading song() {
    return WrittenSong.in("C major")
        .section(SectionRole.VERSE, "A", "C | G | Am | F")
        .section(SectionRole.CHORUS, "B", "C | G | Am | F")
        .tune(
            "c5@0-4 d5@4-8 e5@8-12 f5@12-16 g5@16-18 e5@18-20 d5@20-22 c5@22-24 a4@24-28 c5@28-32")
        .reading();
  }

  private static Reading with(Reading song, int first, int last) {
    List<NoteEvent> notes =
        song.get(Facet.MELODY).notes().subList(first, last).stream()
            .map(note -> new NoteEvent(note.span(), note.midiPitch() - 4, 0.9))
            .toList();
    Voice voice = Voice.beside(song.get(Facet.MELODY), "voice-2", notes, List.of());
    return song.with(Facet.VOICES, Derived.of(new Voices(List.of(voice))));
  }

  @Test
  void aSecondVoiceThatJoinsIsToldWhereItJoins() {
    assertThat(WrittenSong.told(FINDERS, with(song(), 4, 10))).containsExactly("vocal-stack 5-8");
  }

  @Test
  void aVoiceThatSingsThroughoutOrHardlyJoinsNothing() {
    assertThat(WrittenSong.told(FINDERS, with(song(), 0, 10))).isEmpty();
    assertThat(WrittenSong.told(FINDERS, with(song(), 8, 10))).isEmpty();
  }

  @Test
  void aLineSungAgainIsNoDelay() {
    Echo again = echo(Echo.Kind.RESUNG, 0.04);
    Echo delay = echo(Echo.Kind.DELAY, 0.001);
    Reading reading =
        song().with(Facet.ECHOES, Derived.of(new Echoes(List.of(again, delay), List.of())));
    assertThat(WrittenSong.told(FINDERS, reading)).containsExactly("resung-echo 2-3");
  }

  private static Echo echo(Echo.Kind kind, double wander) {
    return new Echo(kind, new Span(2, 6), 2, wander, 15, Optional.empty(), 0, List.of(), 0.8);
  }
}
