package undersong.notation;

import java.util.Optional;
import undersong.theory.SpelledPitch;

/**
 * One sign on the staff: a note, a part of a note that is tied, or a rest.
 *
 * @param startTicks from the bar's beginning
 * @param ticks it lasts, {@link NoteValue#TICKS_PER_QUARTER} a quarter
 * @param value the sign; within a tuplet it lasts longer on paper than it sounds
 * @param triplet whether it is one of three in the time of two
 * @param pitch empty for a rest
 * @param tiedOn whether it is held on into the next sign
 * @param begins whether the note begins here, rather than being held over
 * @param syllable sung on it; "" for none and where it is held over
 * @param heard place of the note among those that were heard; -1 for a rest
 */
public record WrittenNote(
    int startTicks,
    int ticks,
    NoteValue value,
    boolean triplet,
    Optional<SpelledPitch> pitch,
    boolean tiedOn,
    boolean begins,
    String syllable,
    int heard) {
  public WrittenNote {
    if (startTicks < 0 || ticks <= 0) {
      throw new IllegalArgumentException(
          "A sign at tick %d of %d ticks must not begin before its bar and must last."
              .formatted(startTicks, ticks));
    }
    int onPaper = triplet ? ticks * 3 / 2 : ticks;
    if (value.ticks() != onPaper) {
      throw new IllegalArgumentException(
          "%d ticks%s are not written as %s."
              .formatted(ticks, triplet ? " of a triplet" : "", value));
    }
  }

  public boolean isRest() {
    return pitch.isEmpty();
  }
}
