package undersong.reading;

import java.util.List;

/**
 * The sound of one bar.
 *
 * @param onsetsPerBeat onset density
 * @param bandLevelsDb RMS in dBFS of both channels, one entry per {@link HearingBand}; -120 in
 *     silence
 * @param centroidHz spectral centroid; 0 in silence
 * @param rollOffHz frequency below which 85 % of the power lies; 0 in silence
 * @param noisiness spectral flatness (geometric over arithmetic mean of power), 0 tone to 1 noise
 * @param snareBeats where in the bar the snare is struck, in beats from its downbeat (1 = on 2)
 */
public record BarTexture(
    double onsetsPerBeat,
    List<Double> bandLevelsDb,
    double centroidHz,
    double rollOffHz,
    double noisiness,
    List<Double> snareBeats) {
  public BarTexture {
    bandLevelsDb = List.copyOf(bandLevelsDb);
    snareBeats = List.copyOf(snareBeats);
    if (bandLevelsDb.size() != HearingBand.values().length) {
      throw new IllegalArgumentException(
          "A bar's texture has %d band levels; there must be one for each of the %d hearing bands."
              .formatted(bandLevelsDb.size(), HearingBand.values().length));
    }
  }

  /** A bar without a snare. */
  public BarTexture(
      double onsetsPerBeat,
      List<Double> bandLevelsDb,
      double centroidHz,
      double rollOffHz,
      double noisiness) {
    this(onsetsPerBeat, bandLevelsDb, centroidHz, rollOffHz, noisiness, List.of());
  }

  public BarTexture withSnareBeats(List<Double> beats) {
    return new BarTexture(onsetsPerBeat, bandLevelsDb, centroidHz, rollOffHz, noisiness, beats);
  }

  public double levelDb(HearingBand band) {
    return bandLevelsDb.get(List.of(HearingBand.values()).indexOf(band));
  }
}
