package undersong.bench.render;

import java.util.Random;

/**
 * What a worn copy does to one of its channels: the other one is bent otherwise, so that sounds
 * lean to a side, by pitch.
 */
record ChannelEqualizer(double highPassHz, double boostHz, double boostDb) {
  private static final double BOOST_WIDTH = 0.9;

  static ChannelEqualizer random(double boostHz, Random random) {
    double highPassHz = 40 + 40 * random.nextDouble();
    return new ChannelEqualizer(highPassHz, boostHz, 5 * random.nextGaussian() / 1.5);
  }

  /**
   * @param channel read and written
   */
  void apply(float[] channel) {
    Filters.highPass(channel, highPassHz);
    Filters.peak(channel, boostHz, BOOST_WIDTH, boostDb);
  }
}
