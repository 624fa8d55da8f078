package undersong.feature;

import java.util.Optional;

/**
 * Everything that was measured on one recording. Slow to make, immutable, cached; nothing here
 * depends on what a listener said.
 *
 * @param contentHash of the recording it was measured on
 * @param durationSeconds of the recording, as its decoded samples last
 * @param onsetStrength 50 a second, not negative: half-wave rectified rise of the rhythm spectrum
 * @param bandOnsets 50 a second, 3 bins: the same for low (below 150 Hz: kick, bass), middle (150
 *     Hz to 3 kHz: snare, chords) and high (above 3 kHz: cymbals) bands
 * @param tempogram 2 a second: strength of each tempo, bin b being {@code 30 * 2^(b/24)} bpm, 96
 *     bins
 * @param longSpectrum 25 a second, 264 bins of 1/36 octave from 27.5 Hz (bin b is centered at
 *     {@code 27.5 * 2^((b - 1) / 36)} Hz): magnitude, log1p(1000 m), window 16384 samples at 22050
 *     Hz; for bass and chords
 * @param shortSpectrum the same bins, window 4096 samples: blurred below 150 Hz, quick above
 * @param loudness of the whole recording
 * @param bandLevelsDb 10 a second, 7 bins: RMS in dBFS (at least -120) of the mid signal below 80
 *     Hz, 80-250, 250-800, 800-2500, 2500-8000, above 8000 Hz, and the whole
 * @param sideLevelsDb the same for the side signal (L-R)/2
 * @param centroidHz 10 a second: spectral centroid of the mid signal; 0 in silence
 * @param rollOffHz 10 a second: frequency below which 85 % of the power lies; 0 in silence
 * @param flatness 10 a second: geometric over arithmetic mean of the power spectrum, 0 to 1
 * @param image how sound lies between left and right
 * @param heard what the trained ear heard, where its model could be loaded
 */
public record Features(
    String contentHash,
    double durationSeconds,
    FrameSeries onsetStrength,
    FrameMatrix bandOnsets,
    FrameMatrix tempogram,
    FrameMatrix longSpectrum,
    FrameMatrix shortSpectrum,
    Loudness loudness,
    FrameMatrix bandLevelsDb,
    FrameMatrix sideLevelsDb,
    FrameSeries centroidHz,
    FrameSeries rollOffHz,
    FrameSeries flatness,
    StereoImage image,
    Optional<EarActivations> heard) {

  /** The same with what the trained ear heard. */
  public Features withHeard(EarActivations activations) {
    return new Features(
        contentHash,
        durationSeconds,
        onsetStrength,
        bandOnsets,
        tempogram,
        longSpectrum,
        shortSpectrum,
        loudness,
        bandLevelsDb,
        sideLevelsDb,
        centroidHz,
        rollOffHz,
        flatness,
        image,
        Optional.of(activations));
  }
}
