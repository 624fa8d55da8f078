package undersong.reading;

import java.util.List;

/**
 * How wide one bar sounds.
 *
 * @param sideToMidDb power of the side signal (L-R)/2 against the middle's (L+R)/2; -120 where both
 *     channels are equal
 * @param bands the same band by band, one entry per {@link HearingBand} in their order
 */
public record BarWidth(double sideToMidDb, List<BandWidth> bands) {
  public BarWidth {
    bands = List.copyOf(bands);
    if (bands.size() != HearingBand.values().length) {
      throw new IllegalArgumentException(
          "A bar's width has %d bands; there must be one for each of the %d hearing bands."
              .formatted(bands.size(), HearingBand.values().length));
    }
  }

  /**
   * @param correlation between the channels, -1 (they cancel when added) to 1 (equal); 1 in silence
   */
  public record BandWidth(double sideToMidDb, double correlation) {
    public BandWidth {
      if (!(correlation >= -1 && correlation <= 1)) {
        throw new IllegalArgumentException(
            "Correlation %s must lie within -1 to 1.".formatted(correlation));
      }
    }
  }

  public BandWidth band(HearingBand band) {
    return bands.get(List.of(HearingBand.values()).indexOf(band));
  }
}
