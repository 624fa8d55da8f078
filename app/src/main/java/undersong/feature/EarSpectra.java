package undersong.feature;

/**
 * A run of frames of the four log-frequency spectra, 50 frames a second; what the listening network
 * takes in.
 *
 * @param firstFrame number of the first frame, counted from the start of the recording; frame i is
 *     centered at sample {@code 441 i} of 22,050 a second
 * @param frames how many
 * @param tonal three planes (windows of 16384, 8192 and 4096 samples), each {@code frames * 264}
 *     values, frame after frame; read only
 * @param rhythm window 2048, {@code frames * 90} values; read only
 */
@SuppressWarnings("ArrayRecordComponent") // a passing chunk, never compared; copying costs too much
public record EarSpectra(int firstFrame, int frames, float[][] tonal, float[] rhythm) {
  public static final int TONAL_BINS = 264;
  public static final int RHYTHM_BINS = 90;
}
