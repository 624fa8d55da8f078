package undersong.technique.harmony;

import java.util.List;
import undersong.technique.TechniqueFinder;

/** Every finder of this family. */
public final class HarmonyFinders {
  private HarmonyFinders() {}

  public static List<TechniqueFinder> all() {
    return List.of();
  }
}
