package undersong.exchange;

import java.util.Optional;
import java.util.function.BiFunction;
import java.util.function.Function;
import undersong.reading.Correction;
import undersong.reading.PartName;
import undersong.time.Span;

/**
 * How notes and rests of a named part are said as corrections.
 *
 * @param note from span and MIDI pitch
 * @param rest from the span of silence
 */
record SaidPart(BiFunction<Span, Double, Correction> note, Function<Span, Correction> rest) {

  /** Empty where no part has the name. */
  static Optional<SaidPart> named(String name) {
    if (name.equals(PartName.BASS)) {
      return Optional.of(new SaidPart(Correction.BassNoteOver::new, Correction.NoBassOver::new));
    } else if (name.equals(PartName.MELODY)) {
      return Optional.of(
          new SaidPart(Correction.MelodyNoteOver::new, Correction.NoMelodyOver::new));
    } else if (PartName.isVoice(name)) {
      return Optional.of(
          new SaidPart(
              (span, pitch) -> new Correction.VoiceNoteOver(name, span, pitch),
              span -> new Correction.NoVoiceOver(name, span)));
    } else if (PartName.isLine(name)) {
      return Optional.of(
          new SaidPart(
              (span, pitch) -> new Correction.LineNoteOver(name, span, pitch),
              span -> new Correction.NoLineOver(name, span)));
    }
    return Optional.empty();
  }
}
