package undersong.estimate.melody;

/**
 * Costs of the melody decoders, in log probability; starting points of our own.
 *
 * @param stepCost of moving by a third of a semitone from one frame to the next
 * @param jumpCost of jumping to any other pitch
 * @param voicingCost of beginning or ending to sound
 * @param leastOwn log-odds from which a followed note is taken for the lead's own
 * @param noteChangeCost of moving to another note
 * @param pitchSpreadSemitones how far a sung pitch strays from its note
 * @param restrikeProbability from which a held pitch counts as struck or sung anew
 * @param shortestNoteSeconds shorter ones join their neighbor
 */
public record MelodySettings(
    double stepCost,
    double jumpCost,
    double voicingCost,
    double leastOwn,
    double noteChangeCost,
    double pitchSpreadSemitones,
    double restrikeProbability,
    double shortestNoteSeconds) {
  public static final MelodySettings DEFAULTS =
      new MelodySettings(0.25, 6, 0.5, 0, 3, 0.45, 0.4, 0.08);

  /** These, with another cost of beginning or ending to sound. */
  public MelodySettings withVoicing(double cost) {
    return new MelodySettings(
        stepCost,
        jumpCost,
        cost,
        leastOwn,
        noteChangeCost,
        pitchSpreadSemitones,
        restrikeProbability,
        shortestNoteSeconds);
  }

  /** These, taking notes for the lead's own from other log-odds on. */
  public MelodySettings withLeastOwn(double logOdds) {
    return new MelodySettings(
        stepCost,
        jumpCost,
        voicingCost,
        logOdds,
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
        leastOwn,
        changeCost,
        pitchSpreadSemitones,
        restrike,
        shortestSeconds);
  }
}
