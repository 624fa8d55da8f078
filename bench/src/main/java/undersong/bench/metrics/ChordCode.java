package undersong.bench.metrics;

/**
 * A chord as the field compares it.
 *
 * @param root pitch class 0 to 11, C = 0; -1 = no chord or unknown
 * @param bits bit k set: k semitones above the root sound; root and bass bits are always set
 * @param bass semitones of the bass above the root, 0 to 11; -1 = no chord or unknown
 * @param known false for harmony without a name ("X")
 */
public record ChordCode(int root, int bits, int bass, boolean known) {
  public static final ChordCode NONE = new ChordCode(-1, 0, -1, true);
  public static final ChordCode UNKNOWN = new ChordCode(-1, 0, -1, false);

  /** Encodes a sounding chord, with root and bass bits forced on. */
  public static ChordCode of(int root, int bits, int bass) {
    return new ChordCode(root, (bits & 0xfff) | 1 | 1 << bass, bass, true);
  }

  public boolean sounds() {
    return root >= 0;
  }

  /** Bits 0 to 7: the triad, without sixth and seventh. */
  int triad() {
    return bits & 0xff;
  }

  /** Pitch classes that sound, bit 0 = C. */
  public int pitchClassBits() {
    int shifted = sounds() ? bits << root : 0;
    return (shifted | shifted >>> 12) & 0xfff;
  }

  public boolean hasThird() {
    return (bits & (1 << 3 | 1 << 4)) != 0;
  }

  /** Pitch class of the bass; -1 where no chord sounds. */
  public int bassPitchClass() {
    return sounds() ? (root + bass) % 12 : -1;
  }

  /** The chord on another root. */
  public ChordCode transposed(int semitones) {
    return sounds() ? new ChordCode(Math.floorMod(root + semitones, 12), bits, bass, true) : this;
  }
}
