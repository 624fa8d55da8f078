package undersong.technique.form;

import java.util.List;
import undersong.technique.TechniqueFinder;

/** Every finder of this family. */
public final class FormFinders {
  private FormFinders() {}

  public static List<TechniqueFinder> all() {
    return List.of();
  }
}
