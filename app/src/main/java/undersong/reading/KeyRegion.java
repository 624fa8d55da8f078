package undersong.reading;

import java.util.List;
import undersong.theory.Key;
import undersong.time.Span;

/** A stretch under one tonic and mode, with the other keys that were weighed. */
public record KeyRegion(Span span, Key key, double probability, List<Candidate<Key>> runnersUp) {
  public KeyRegion {
    Probability.check(probability);
    runnersUp = List.copyOf(runnersUp);
  }

  Object essence() {
    return List.of(span, key);
  }
}
