package undersong.render.synth;

/** Something that can be played one note at a time. */
public interface Instrument {
  int SAMPLE_RATE_HZ = 44_100;

  /** The note as mono samples; its musical beginning lies at {@link #leadInSamples()}. */
  float[] play(ToneRequest tone);

  /** What sounds before the musical beginning of a note: a consonant, for one. */
  default int leadInSamples() {
    return 0;
  }

  static int samples(double seconds) {
    return (int) StrictMath.round(seconds * SAMPLE_RATE_HZ);
  }
}
