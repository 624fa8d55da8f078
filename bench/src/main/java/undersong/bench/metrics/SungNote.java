package undersong.bench.metrics;

/**
 * One note of a reference or estimate.
 *
 * @param midiPitch 69 = A4; fractional where it lies between
 */
public record SungNote(double startSeconds, double endSeconds, double midiPitch) {
  public SungNote {
    if (!(endSeconds > startSeconds)) {
      throw new IllegalArgumentException(
          "Note %s at [%s, %s) must end later than it starts."
              .formatted(midiPitch, startSeconds, endSeconds));
    }
  }

  public double lengthSeconds() {
    return endSeconds - startSeconds;
  }

  public int pitchClass() {
    return Math.floorMod((int) Math.round(midiPitch), 12);
  }
}
