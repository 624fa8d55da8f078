package undersong.shelf;

import java.time.Instant;
import java.util.List;
import java.util.OptionalLong;
import undersong.technique.Technique;

/**
 * What a listener remembers of a song, in their own words and signs.
 *
 * @param songId of the song as remembered
 * @param numerals as typed; "" for none
 * @param syllables of a figure, as typed; "" for none
 * @param words the listener's own; "" for none
 * @param recordingId the song on the shelf that checks it; empty: unchecked
 */
public record Memory(
    long songId,
    String author,
    Instant saidAt,
    String numerals,
    String syllables,
    List<Technique> techniques,
    String words,
    OptionalLong recordingId) {
  public Memory {
    techniques = List.copyOf(techniques);
  }
}
