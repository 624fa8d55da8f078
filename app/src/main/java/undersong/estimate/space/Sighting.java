package undersong.estimate.space;

/**
 * One onset with the place that was read off it.
 *
 * @param weight how much it is to be trusted
 * @param strengthDb against the mix
 */
record Sighting(
    double startSeconds,
    double endSeconds,
    double midiPitch,
    double placement,
    double weight,
    double strengthDb) {

  Sighting at(double otherPlacement) {
    return new Sighting(startSeconds, endSeconds, midiPitch, otherPlacement, weight, strengthDb);
  }
}
