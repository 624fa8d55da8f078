package undersong.notation;

import java.util.Optional;
import undersong.reading.HarmonyEvent;
import undersong.theory.ChordSymbol;
import undersong.theory.Numerals;
import undersong.theory.ScaleDegree;

/**
 * A chord over a bar, where it arrives.
 *
 * @param startTicks from the bar's beginning
 * @param symbol spelled in its key
 * @param numeral as the reader has numerals; "" where none is told
 * @param degree of its root, within what it is applied to; empty where no numeral is told
 * @param held whether it sounds since an earlier bar
 */
public record WrittenChord(
    int startTicks,
    ChordSymbol symbol,
    String numeral,
    Optional<ScaleDegree> degree,
    boolean held) {
  public WrittenChord {
    if (startTicks < 0) {
      throw new IllegalArgumentException(
          "A chord at tick %d begins before its bar.".formatted(startTicks));
    }
  }

  static WrittenChord of(
      int startTicks,
      ChordSymbol symbol,
      Optional<HarmonyEvent> event,
      NotationSettings settings,
      boolean held) {
    return new WrittenChord(
        startTicks,
        symbol,
        event
            .flatMap(e -> e.numeral().map(n -> Numerals.print(n, e.key(), settings.numerals())))
            .orElse(""),
        event.flatMap(HarmonyEvent::numeral).map(numeral -> numeral.root()),
        held);
  }
}
