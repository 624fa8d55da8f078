package undersong.estimate.motif;

/**
 * Limits for figures; starting points of our own.
 *
 * @param fewestNotes of a cell
 * @param leastDistinction points (see {@link Distinction}) below which a cell is everyday matter
 * @param likePitches share of notes whose intervals agree, for the same figure at any pitch
 * @param likeRhythm share of notes whose onsets agree, for a figure refitted to another chord
 * @param furthestRefitSemitones that a note moves on average when a figure is refitted
 * @param riffLikeness share of notes that agree in a figure that goes round
 * @param riffRounds that it goes round at least
 * @param mostPerPart figures told of one part
 */
public record MotifSettings(
    int fewestNotes,
    double leastDistinction,
    double likePitches,
    double likeRhythm,
    double furthestRefitSemitones,
    double riffLikeness,
    int riffRounds,
    int mostPerPart) {
  public static final MotifSettings DEFAULTS = new MotifSettings(3, 1, 0.8, 0.9, 3, 0.85, 4, 3);
}
