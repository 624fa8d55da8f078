package undersong.study;

import java.util.Optional;
import java.util.OptionalInt;
import undersong.shelf.Song;
import undersong.shelf.StoredReading;
import undersong.work.Trouble;

/** What must hold before a word is kept or a step taken back. */
final class StepChecks {
  private StepChecks() {}

  static void requireSeen(Song song, StoredReading now, OptionalInt seenRevision) {
    if (seenRevision.isPresent() && seenRevision.getAsInt() != now.revision()) {
      throw new Trouble.MovedOn(
          """
          Song %d is at revision %d; this was said of revision %d, and nothing was changed. \
          Maybe another window or program said something first; look again and say it anew.\
          """
              .formatted(song.id(), now.revision(), seenRevision.getAsInt()),
          now.revision());
    }
  }

  static void requireStep(Optional<Long> step, String action, long songId) {
    if (step.isEmpty()) {
      throw new Trouble.WrongUsage(
          "There is nothing to %s on song %d. Maybe it was done in another window already."
              .formatted(action, songId));
    }
  }
}
