package undersong.render.synth;

/** White noise that starts the same way for the same seed (a 64-bit xorshift generator). */
public final class Noise {
  private long state;

  public Noise(long seed) {
    state = seed * 0x9E3779B97F4A7C15L + 0x2545F4914F6CDD1DL;
    if (state == 0) {
      state = 1;
    }
    next();
    next();
  }

  /** Evenly spread over [-1, 1). */
  public float next() {
    state ^= state << 13;
    state ^= state >>> 7;
    state ^= state << 17;
    return (state >> 40) / (float) (1 << 23);
  }
}
