package undersong.reading;

import java.util.List;
import java.util.Set;
import undersong.theory.ChordQuality;
import undersong.theory.ChordSymbol;
import undersong.theory.Key;
import undersong.theory.Mode;
import undersong.theory.NoteName;
import undersong.time.Span;

/** One correction of every kind, all of which fit {@link SampleReadings#full}. */
public final class SampleCorrections {
  private static final Span SECOND_BAR = new Span(2, 4);

  private SampleCorrections() {}

  public static List<Correction> ofEveryKind() {
    return List.of(
        new Correction.TempoLevel(1.0 / 3),
        new Correction.BeatAt(1.5),
        new Correction.DownbeatAt(2.0),
        new Correction.MeterOver(SECOND_BAR, new TimeSignature(2, true)),
        new Correction.TuningIs(-12.25),
        new Correction.KeyOver(SECOND_BAR, new Key(NoteName.parse("F#"), Mode.DORIAN)),
        new Correction.ChordOver(
            SECOND_BAR,
            new ChordSymbol.Chord(
                NoteName.parse("Bb"),
                ChordQuality.MINOR_SEVENTH,
                Set.of(14, 17),
                NoteName.parse("Db"))),
        new Correction.NoThirdOver(SECOND_BAR),
        new Correction.BassNoteOver(SECOND_BAR, 29),
        new Correction.NoBassOver(SECOND_BAR),
        new Correction.MelodyNoteOver(SECOND_BAR, 71.5),
        new Correction.MelodyOver(SECOND_BAR),
        new Correction.NoMelodyOver(SECOND_BAR),
        new Correction.VoiceNoteOver("voice-2", SECOND_BAR, 74.25),
        new Correction.NoVoiceOver("voice-3", SECOND_BAR),
        new Correction.LineNoteOver("line-1", SECOND_BAR, 62),
        new Correction.NoLineOver("line-2", SECOND_BAR),
        new Correction.BoundaryAt(8.0),
        new Correction.NoBoundaryAt(16.0),
        new Correction.SamenessOver(new Span(8, 16), "A"),
        new Correction.NameOver(new Span(0, 8), SectionRole.PRECHORUS),
        new Correction.PlacementOver(SECOND_BAR, SoundSource.LINE, -0.75),
        new Correction.LayerOver(SECOND_BAR, LayerKind.SNARE, false),
        new Correction.EchoOver(SECOND_BAR, Echo.Kind.RESUNG, 0.375),
        new Correction.NoEchoOver(SECOND_BAR),
        new Correction.RoomOver(SECOND_BAR, 1.4, -9));
  }
}
