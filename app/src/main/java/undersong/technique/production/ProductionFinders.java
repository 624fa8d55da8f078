package undersong.technique.production;

import java.util.List;
import undersong.technique.TechniqueFinder;

/** Every finder of this family. */
public final class ProductionFinders {
  private ProductionFinders() {}

  public static List<TechniqueFinder> all() {
    return List.of();
  }
}
