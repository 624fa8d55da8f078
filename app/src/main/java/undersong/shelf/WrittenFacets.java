package undersong.shelf;

import java.lang.ref.SoftReference;
import java.util.IdentityHashMap;
import undersong.reading.FacetValue;
import undersong.reading.Reading;

/**
 * Readings as text, where what stayed the same since the last one is not written again: a word said
 * leaves most facets as they were. Safe for several threads.
 */
final class WrittenFacets {
  /** Value, by what it is rather than by what it equals, to its text; of one reading. */
  private volatile SoftReference<IdentityHashMap<FacetValue, String>> last =
      new SoftReference<>(null);

  String print(Reading reading) {
    IdentityHashMap<FacetValue, String> before = last.get();
    IdentityHashMap<FacetValue, String> texts = new IdentityHashMap<>();
    String text =
        ReadingJson.print(
            reading,
            value -> {
              String known = before == null ? null : before.get(value);
              String own = known == null ? ReadingJson.write(value) : known;
              texts.put(value, own);
              return own;
            });
    last = new SoftReference<>(texts);
    return text;
  }
}
