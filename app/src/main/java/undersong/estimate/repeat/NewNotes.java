package undersong.estimate.repeat;

/** Says how likely a note of one copy is new against another copy. */
interface NewNotes {
  /**
   * @param there beat of the other copy under the note's own
   * @param semitones by which the other copy is higher
   */
  double probability(PlacedNote note, double there, int semitones);
}
