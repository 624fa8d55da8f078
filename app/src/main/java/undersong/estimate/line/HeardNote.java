package undersong.estimate.line;

import java.util.OptionalDouble;
import undersong.reading.NoteEvent;

/**
 * A note of the accompaniment as it was heard.
 *
 * @param placement -1 left to 1 right; empty where the image does not tell
 */
record HeardNote(NoteEvent event, OptionalDouble placement) {
  double start() {
    return event.span().startSeconds();
  }

  double pitch() {
    return event.midiPitch();
  }
}
