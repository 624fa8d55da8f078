package undersong.shelf;

import java.util.Map;

/**
 * What changed on a shelf since somebody last looked.
 *
 * @param changes the count of changes now; to be named at the next look
 * @param songs those of which something else was read or said since, with the change that was the
 *     last and the revision of the reading
 */
public record ChangedSongs(long changes, Map<Long, Change> songs) {
  /** The last change of a song. */
  public record Change(long change, int revision) {}

  public ChangedSongs {
    songs = Map.copyOf(songs);
  }
}
