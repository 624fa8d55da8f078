package undersong.render;

import undersong.render.synth.Effects;

/** A stretch of two channels that lies somewhere in the song. */
final class Block {
  private final int start;
  private final float[] left;
  private final float[] right;

  /**
   * @param start sample of the song at which it begins; may be negative
   */
  Block(int start, int size) {
    this.start = start;
    this.left = new float[size];
    this.right = new float[size];
  }

  int start() {
    return start;
  }

  int size() {
    return left.length;
  }

  float[] left() {
    return left;
  }

  float[] right() {
    return right;
  }

  /** Adds a mono sound that begins at a sample of the song. */
  void add(float[] mono, int atSample, double pan, float level) {
    double[] gains = Effects.pan(pan);
    float toLeft = level * (float) gains[0];
    float toRight = level * (float) gains[1];
    int at = atSample - start;
    int from = Math.max(0, -at);
    int to = Math.min(mono.length, left.length - at);
    for (int i = from; i < to; i++) {
      left[at + i] += toLeft * mono[i];
      right[at + i] += toRight * mono[i];
    }
  }

  /** Adds this block to whole channels that begin at a sample of the song. */
  void addTo(float[] allLeft, float[] allRight, float[] room, int firstSample, float roomShare) {
    int at = start - firstSample;
    int from = Math.max(0, -at);
    int to = Math.min(left.length, allLeft.length - at);
    for (int i = from; i < to; i++) {
      allLeft[at + i] += left[i];
      allRight[at + i] += right[i];
      room[at + i] += roomShare * 0.5f * (left[i] + right[i]);
    }
  }
}
