package undersong.estimate.line;

/**
 * Limits for the accompaniment's notes and lines; starting points of our own, settled on the tuning
 * songs and the demo songs.
 *
 * @param leastOnset of the ear's onset activation for a note to begin
 * @param leastSustain of its sustain activation for a note to go on
 * @param togetherSeconds onsets this near begin together
 * @param leastMoving a note from this probability on belongs to a line that moves by itself; low,
 *     for most notes are those of chords
 * @param newLineCost semitones a note may lie from every line before it begins a new one
 * @param placeCost semitones that the whole way from left to right counts as
 * @param fewestNotes a line has at least this many
 * @param mostLines no more are told
 */
public record LineSettings(
    double leastOnset,
    double leastSustain,
    double togetherSeconds,
    double leastMoving,
    double newLineCost,
    double placeCost,
    int fewestNotes,
    int mostLines) {
  public static final LineSettings DEFAULTS = new LineSettings(0.5, 0.3, 0.045, 0.15, 9, 6, 6, 6);
}
