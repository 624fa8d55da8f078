package undersong.estimate.repeat;

/**
 * Limits for telling copies apart; starting points of our own.
 *
 * @param onsetBeats two notes begin together within this many beats
 * @param leastProbability below it a difference is not told
 * @param leastNewNote likewise for one note; lower, for among many notes few are told
 * @param mostOtherRoots copies are laid note against note unless more of them has another root
 * @param presentShare a part is in a section that sounds in this share of its bars
 * @param absentShare and is not in one where it sounds in no more than this
 * @param placeDifference from which a part stands elsewhere, in panning index
 * @param levelDifferenceLu from which a bar is louder or softer
 */
public record RepeatSettings(
    double onsetBeats,
    double leastProbability,
    double leastNewNote,
    double mostOtherRoots,
    double presentShare,
    double absentShare,
    double placeDifference,
    double levelDifferenceLu) {
  public static final RepeatSettings DEFAULTS =
      new RepeatSettings(0.3, 0.4, 0.35, 0.25, 0.5, 0.13, 0.3, 3);
}
