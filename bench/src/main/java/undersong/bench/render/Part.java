package undersong.bench.render;

import java.util.List;
import java.util.Locale;

/**
 * What one player plays, and the channel of the mix it goes through.
 *
 * @param program General MIDI program 0 to 127; of drums the kit
 * @param sung whether a voice sings it; otherwise the program plays it
 * @param pitchWanderCents standard deviation of a singer's pitch from note to note
 */
record Part(
    Role role,
    int program,
    boolean sung,
    double pitchWanderCents,
    List<PlayedNote> notes,
    Strip strip) {
  /** Who plays. */
  enum Role {
    DRUMS,
    BASS,
    COMPING,
    ARPEGGIO,
    PAD,
    LEAD,
    SECOND,
    /** Short lines between the voices. */
    LINE,
    /** The second take of another part. */
    DOUBLE,
    /** Sings the end of a phrase again. */
    ANSWER,
    /** Notes that only a repeat has. */
    ADDITION;

    String words() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  Part {
    notes = List.copyOf(notes);
  }

  static Part played(Role role, int program, List<PlayedNote> notes, Strip strip) {
    return new Part(role, program, false, 0, notes, strip);
  }

  static Part sung(Role role, List<PlayedNote> notes, double pitchWanderCents, Strip strip) {
    return new Part(role, 53, true, pitchWanderCents, notes, strip);
  }

  Part withNotes(List<PlayedNote> others) {
    return new Part(role, program, sung, pitchWanderCents, others, strip);
  }

  Part withStrip(Strip other) {
    return new Part(role, program, sung, pitchWanderCents, notes, other);
  }
}
