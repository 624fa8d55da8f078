package undersong.theory;

import undersong.theory.ChordSymbol.Chord;

/**
 * For whom notes are written: a transposing instrument reads them higher than they sound. Distances
 * from memory; common practice of orchestration.
 */
public enum TransposingInstrument {
  /** Written as it sounds. */
  CONCERT(new Interval(0, 0)),
  /** Trumpet or clarinet in Bb: a major second. */
  B_FLAT(new Interval(1, 2)),
  /** Tenor saxophone, bass clarinet: a major ninth. */
  B_FLAT_LOW(new Interval(8, 14)),
  /** Clarinet in A: a minor third. */
  A(new Interval(2, 3)),
  /** Alto saxophone: a major sixth. */
  E_FLAT(new Interval(5, 9)),
  /** Baritone saxophone: an octave and a major sixth. */
  E_FLAT_LOW(new Interval(12, 21)),
  /** Horn in F: a fifth. */
  F(new Interval(4, 7));

  private static final int MOST_ACCIDENTALS = 6;

  private final Interval writtenAboveSounding;

  TransposingInstrument(Interval writtenAboveSounding) {
    this.writtenAboveSounding = writtenAboveSounding;
  }

  /** How far above its sound it reads; a key with many accidentals may be spelled otherwise. */
  public Interval writtenAboveSounding() {
    return writtenAboveSounding;
  }

  /** The key as written; with seven or more accidentals it takes its simpler neighbour's name. */
  public Key written(Key sounding) {
    return new Key(written(sounding.tonic(), sounding), sounding.mode());
  }

  /** A note of music in this key. */
  public NoteName written(NoteName sounding, Key key) {
    return sounding.up(fifths(key));
  }

  public SpelledPitch written(SpelledPitch sounding, Key key) {
    return SpelledPitch.ofMidi(
        sounding.midi() + writtenAboveSounding.semitones(), written(sounding.name(), key));
  }

  public ChordSymbol written(ChordSymbol sounding, Key key) {
    return sounding instanceof Chord chord ? chord.up(fifths(key)) : sounding;
  }

  private int fifths(Key key) {
    int fifths = writtenAboveSounding.fifths();
    if (fifths == 0) {
      return 0;
    }
    int signature = key.signatureFifths() + fifths;
    if (signature > MOST_ACCIDENTALS) {
      return fifths - 12;
    }
    return signature < -MOST_ACCIDENTALS ? fifths + 12 : fifths;
  }
}
