package undersong.trend;

/**
 * How many of some songs have a thing.
 *
 * <p>Source: E. B. Wilson, "Probable Inference, the Law of Succession, and Statistical Inference",
 * J. American Statistical Association 22(158), 1927 (the score interval, without continuity
 * correction).
 *
 * @param songs that have it, 0 to {@code of}
 * @param of songs looked at
 */
public record Share(int songs, int of) {
  /** Two-sided 95 % of the normal distribution. */
  private static final double Z = 1.959963984540054;

  public Share {
    if (songs < 0 || songs > of) {
      throw new IllegalArgumentException(
          "%d songs of %d must lie within 0 to %d.".formatted(songs, of, of));
    }
  }

  /** 0 to 1; 0 where no song was looked at. */
  public double value() {
    return of == 0 ? 0 : (double) songs / of;
  }

  /** Lower end of the 95 % Wilson interval; 0 where no song was looked at. */
  public double low() {
    return of == 0 || songs == 0 ? 0 : middle() - reach();
  }

  /** Upper end of the 95 % Wilson interval; 1 where no song was looked at. */
  public double high() {
    return of == 0 || songs == of ? 1 : middle() + reach();
  }

  private double middle() {
    return (songs + Z * Z / 2) / (of + Z * Z);
  }

  private double reach() {
    return Z / (of + Z * Z) * Math.sqrt(songs * (1 - value()) + Z * Z / 4);
  }
}
