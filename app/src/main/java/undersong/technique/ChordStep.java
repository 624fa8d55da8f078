package undersong.technique;

import java.util.function.Predicate;
import undersong.reading.Candidate;
import undersong.reading.ChordSpan;
import undersong.reading.HarmonyEvent;
import undersong.theory.ChordSymbol;
import undersong.theory.ChordSymbol.Chord;
import undersong.theory.Key;
import undersong.theory.LeadSheet;
import undersong.theory.Numerals;
import undersong.theory.RomanNumeral;
import undersong.time.Span;

/**
 * One chord on the way through a song: what was heard and how it stands in its key.
 *
 * @param span of the chord; longer than what was heard first where the same chord is struck again
 */
public record ChordStep(
    Span span, Chord chord, ChordSpan heard, HarmonyEvent event, RomanNumeral numeral) {
  public Key key() {
    return event.key();
  }

  /** Semitones of the root above the tonic, 0 to 11. */
  public int root() {
    return Math.floorMod(chord.root().pitchClass() - key().tonic().pitchClass(), 12);
  }

  /** Semitones of the bass above the tonic, 0 to 11. */
  public int bass() {
    return Math.floorMod(chord.bass().pitchClass() - key().tonic().pitchClass(), 12);
  }

  public boolean major() {
    return chord.quality().hasMajorThird();
  }

  public boolean minor() {
    return chord.quality().hasMinorThird();
  }

  /** Whether its triad is diminished. */
  public boolean diminished() {
    return minor() && chord.quality().contains(6) && !chord.quality().contains(7);
  }

  public boolean applied() {
    return numeral.appliedTo().isPresent();
  }

  /** A plain dominant of the key: major third on 5, or diminished on the raised 7. */
  public boolean dominant() {
    return !applied() && ((root() == 7 && major()) || (root() == 11 && diminished()));
  }

  /** The tonic's root with a third, or without one. */
  public boolean tonic() {
    return root() == 0 && !applied();
  }

  /** That the key is right, as far as the chord depends on it. */
  public double keyProbability() {
    double chordAlone = heard.probability();
    return chordAlone > 0 ? Math.min(1, event.probability() / chordAlone) : 0;
  }

  /**
   * That the chord is such, whatever it is called in full: its own probability and those of the
   * runners-up that are such too.
   */
  public double sure(Predicate<Chord> such) {
    double sum = such.test(chord) ? heard.probability() : 0;
    for (Candidate<ChordSymbol> other : heard.runnersUp()) {
      if (other.value() instanceof Chord candidate && such.test(candidate)) {
        sum += other.probability();
      }
    }
    return Math.min(1, sum);
  }

  /** That root and kind of third are as the label says. */
  public double sureOfTriad() {
    return sure(
        other ->
            other.root().pitchClass() == chord.root().pitchClass()
                && other.quality().hasMajorThird() == major()
                && other.quality().hasMinorThird() == minor());
  }

  /** That the root is as the label says. */
  public double sureOfRoot() {
    return sure(other -> other.root().pitchClass() == chord.root().pitchClass());
  }

  /** That the lowest note is as the label says. */
  public double sureOfBass() {
    return sure(other -> other.bass().pitchClass() == chord.bass().pitchClass());
  }

  /** As the key names it: {@code bVI}. */
  public String numeralText() {
    return Numerals.print(numeral, key());
  }

  /** As a lead sheet writes it. */
  public String chordText() {
    return LeadSheet.say(chord);
  }
}
