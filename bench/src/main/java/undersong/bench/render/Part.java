package undersong.bench.render;

import java.util.List;

/**
 * What one player plays, and where it stands in the mix.
 *
 * @param program General MIDI program 0 to 127; of drums the kit
 * @param placement -1 left to 1 right
 * @param levelDb against the other parts
 * @param roomShare how much of it is sent to the reverb, 0 to 1
 */
record Part(
    Role role,
    int program,
    List<PlayedNote> notes,
    double placement,
    double levelDb,
    double roomShare) {
  /** Who plays. */
  enum Role {
    DRUMS,
    BASS,
    COMPING,
    ARPEGGIO,
    PAD,
    LEAD,
    SECOND
  }

  Part {
    notes = List.copyOf(notes);
  }
}
