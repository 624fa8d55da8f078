package undersong.feature;

/**
 * Loudness after ITU-R BS.1770-4 and EBU Tech 3341/3342.
 *
 * @param momentaryLufs 400 ms windows, ten a second; silence reads {@link #SILENT_LUFS}
 * @param shortTermLufs 3 s windows, ten a second; silence reads {@link #SILENT_LUFS}
 * @param integratedLufs gated over the whole recording; {@link #SILENT_LUFS} where nothing passes
 *     the gate
 * @param rangeLu loudness range; 0 where nothing passes the gate
 */
public record Loudness(
    FrameSeries momentaryLufs, FrameSeries shortTermLufs, double integratedLufs, double rangeLu) {
  public static final float SILENT_LUFS = -120;
}
