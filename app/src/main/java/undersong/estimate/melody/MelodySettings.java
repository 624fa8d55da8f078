package undersong.estimate.melody;

/**
 * Costs of the melody decoders, in log probability; starting points of our own.
 *
 * @param stepCost of moving by a third of a semitone from one frame to the next
 * @param jumpCost of jumping to any other pitch
 * @param voicingCost of beginning or ending to sound
 * @param noteChangeCost of moving to another note
 * @param pitchSpreadSemitones how far a sung pitch strays from its note
 * @param restrikeProbability from which a held pitch counts as struck or sung anew
 * @param shortestNoteSeconds shorter ones join their neighbor
 */
public record MelodySettings(
    double stepCost,
    double jumpCost,
    double voicingCost,
    double noteChangeCost,
    double pitchSpreadSemitones,
    double restrikeProbability,
    double shortestNoteSeconds) {
  public static final MelodySettings DEFAULTS =
      new MelodySettings(0.25, 6, 0.5, 3, 0.45, 0.4, 0.08);

  /** These, with another cost of beginning or ending to sound. */
  public MelodySettings withVoicing(double cost) {
    return new MelodySettings(
        stepCost,
        jumpCost,
        cost,
        noteChangeCost,
        pitchSpreadSemitones,
        restrikeProbability,
        shortestNoteSeconds);
  }

  /** These, cutting notes otherwise. */
  public MelodySettings withNotes(double changeCost, double restrike, double shortestSeconds) {
    return new MelodySettings(
        stepCost,
        jumpCost,
        voicingCost,
        changeCost,
        pitchSpreadSemitones,
        restrike,
        shortestSeconds);
  }
}
