package undersong.desk;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import undersong.study.Studied;
import undersong.study.Study;

/**
 * Opens songs, and tells every window how far it has come where a song must be measured or heard
 * anew: after a new version of the program, or where what was measured was thrown away.
 */
final class Opening {
  private static final long TELL_EVERY_NANOSECONDS = 250_000_000;

  private final Study study;
  private final Events events;
  private final Map<Long, Told> told = new ConcurrentHashMap<>();

  private record Told(String stage, long atNanoseconds) {}

  Opening(Study study, Events events) {
    this.study = study;
    this.events = events;
  }

  /** The song as it stands. */
  Studied song(long song) {
    try {
      return study.reading(song, (stage, share) -> tell(song, stage, share));
    } finally {
      told.remove(song);
    }
  }

  private void tell(long song, String stage, double share) {
    long now = System.nanoTime();
    Told before = told.get(song);
    if (before == null
        || !before.stage().equals(stage)
        || now - before.atNanoseconds() > TELL_EVERY_NANOSECONDS) {
      told.put(song, new Told(stage, now));
      events.tellAll(
          "opening",
          Json.object().put("song", song).put("stage", stage).put("share", Json.share(share)));
    }
  }
}
