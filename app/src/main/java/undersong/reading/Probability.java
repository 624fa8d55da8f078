package undersong.reading;

/** The rule for probabilities, said once. */
final class Probability {
  private Probability() {}

  static double check(double probability) {
    if (!(probability >= 0 && probability <= 1)) {
      throw new IllegalArgumentException(
          "Probability %s must lie within 0 to 1.".formatted(probability));
    }
    return probability;
  }
}
