package undersong.desk;

import io.javalin.http.Context;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import undersong.shelf.StoredReading;
import undersong.study.Study;

/**
 * Pages of songs for any reader. What is read of a song stays as it is printed until it is derived
 * anew: the window that asks again after its own word, and a class that opens one song, are
 * answered from what is printed already. Safe for several threads.
 */
final class Pages {
  /** Readings in one reader's words each; a long song's take a megabyte. */
  private static final int KEPT = 8;

  private final Study study;
  private final Preferences preferences;

  private final Map<Key, Map<String, PageParts.Printed>> printed =
      new LinkedHashMap<>(KEPT, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<Key, Map<String, PageParts.Printed>> eldest) {
          return size() > KEPT;
        }
      };

  private record Key(long song, int revision, Wording wording) {}

  Pages(Study study, Preferences preferences) {
    this.study = study;
    this.preferences = preferences;
  }

  /** In the words that whoever asks wants. */
  SongView of(Context request) {
    return new SongView(study, preferences.wording(request), this);
  }

  /** In the words that are remembered. */
  SongView remembered() {
    return new SongView(study, preferences.remembered(), this);
  }

  /** What was printed of a reading so far, to be added to. */
  Map<String, PageParts.Printed> printed(StoredReading reading, Wording wording) {
    synchronized (printed) {
      return printed.computeIfAbsent(
          new Key(reading.songId(), reading.revision(), wording),
          unknown -> new ConcurrentHashMap<>());
    }
  }
}
