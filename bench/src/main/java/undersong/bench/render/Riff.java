package undersong.bench.render;

/**
 * Where guitars and bass lean in a riff of eighths that pushes ahead of the beat: on the one, then
 * off the beat to the end of every four beats. Common practice, no source.
 */
final class Riff {
  private static final boolean[] HARD = {true, false, false, true, false, true, false, true};

  private Riff() {}

  /**
   * @param beat beats from the first bar line
   */
  static boolean isHard(double beat) {
    int eighth = (int) Math.floor(2 * beat + 1e-6);
    return HARD[Math.floorMod(eighth, HARD.length)];
  }
}
