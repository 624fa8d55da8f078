package undersong.estimate.repeat;

import undersong.reading.PartName;

/**
 * Where no trained ear listened, only the notes of the reading tell: a note is new where no part
 * begins it.
 */
final class ReadNotes implements NewNotes {
  private static final double SAME_PITCH = 0.6;
  private static final double FARTHEST_LOOK_BEATS = 0.75;

  /** A note that only goes on sounding in the other copy is less surely new when struck here. */
  private static final double HELD = 0.7;

  /** Likewise one whose pitch class begins there in another octave. */
  private static final double ELSEWHERE = 0.8;

  private final Parts parts;
  private final double onsetBeats;

  ReadNotes(Parts parts, double onsetBeats) {
    this.parts = parts;
    this.onsetBeats = onsetBeats;
  }

  @Override
  public double probability(PlacedNote note, double there, int semitones) {
    if (there < 0) {
      return 0;
    }
    double pitch = note.event().midiPitch() + semitones;
    double length =
        Math.max(onsetBeats, Math.min(FARTHEST_LOOK_BEATS, note.endBeat() - note.startBeat()));
    boolean held = false;
    boolean elsewhere = false;
    for (PlacedNote other : parts.sounding(there - onsetBeats, there + length)) {
      double apart = Math.abs(other.event().midiPitch() - pitch);
      if (Math.abs(apart - 12 * Math.rint(apart / 12)) > SAME_PITCH) {
        continue;
      }
      boolean samePart = other.part().equals(note.part());
      boolean begins = Math.abs(other.startBeat() - there) <= onsetBeats;
      boolean alike = apart <= SAME_PITCH;
      if ((alike && begins) || (samePart && !PartName.isLine(note.part()))) {
        return 0;
      }
      held |= alike;
      elsewhere |= begins;
    }
    return note.event().probability() * (held ? HELD : elsewhere ? ELSEWHERE : 1);
  }
}
