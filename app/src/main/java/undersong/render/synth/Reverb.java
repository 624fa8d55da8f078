package undersong.render.synth;

/**
 * A room: eight delay lines fed back through a Householder matrix, with a duller and weaker return
 * each time round.
 *
 * <p>Source: Jot and Chaigne, "Digital Delay Networks for Designing Artificial Reverberators", AES
 * 90th Convention, 1991. Departs: one pole of damping per line, the same in all.
 */
public final class Reverb {
  private static final int[] LENGTHS = {1423, 1777, 2137, 2557, 2879, 3271, 3613, 4001};

  private Reverb() {}

  /**
   * Adds the room to both channels.
   *
   * @param send read, what is sent into the room
   * @param decaySeconds time in which the room falls by 60 dB
   */
  public static void add(float[] send, float[] left, float[] right, double decaySeconds) {
    int lines = LENGTHS.length;
    float[][] delay = new float[lines][];
    float[] gain = new float[lines];
    float[] dull = new float[lines];
    int[] place = new int[lines];
    for (int k = 0; k < lines; k++) {
      delay[k] = new float[LENGTHS[k]];
      double seconds = (double) LENGTHS[k] / Instrument.SAMPLE_RATE_HZ;
      gain[k] = (float) StrictMath.pow(10, -3 * seconds / decaySeconds);
    }
    float[] out = new float[lines];
    for (int i = 0; i < send.length; i++) {
      float sum = 0;
      for (int k = 0; k < lines; k++) {
        dull[k] += 0.55f * (delay[k][place[k]] - dull[k]);
        out[k] = gain[k] * dull[k];
        sum += out[k];
      }
      float mirror = sum * 2 / lines;
      for (int k = 0; k < lines; k++) {
        delay[k][place[k]] = send[i] + out[k] - mirror;
        place[k]++;
        if (place[k] == LENGTHS[k]) {
          place[k] = 0;
        }
      }
      left[i] += 0.35f * (out[0] - out[2] + out[4] - out[6]);
      right[i] += 0.35f * (out[1] - out[3] + out[5] - out[7]);
    }
  }
}
