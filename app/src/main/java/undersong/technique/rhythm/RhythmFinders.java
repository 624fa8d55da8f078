package undersong.technique.rhythm;

import java.util.List;
import undersong.technique.TechniqueFinder;

/** Every finder of this family. */
public final class RhythmFinders {
  private RhythmFinders() {}

  public static List<TechniqueFinder> all() {
    return List.of();
  }
}
