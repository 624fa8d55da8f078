package undersong.technique.form;

import java.util.List;
import undersong.technique.TechniqueFinder;

/** Every finder of this family. */
public final class FormFinders {
  private FormFinders() {}

  public static List<TechniqueFinder> all() {
    return List.of(
        new ClimaxAtEnd(ClimaxAtEnd.Settings.DEFAULTS),
        new BreakoutChorus(BreakoutChorus.Settings.DEFAULTS),
        new DropChorus(DropChorus.Settings.DEFAULTS),
        new Build(Build.Settings.DEFAULTS),
        new ChorusFirst(),
        new LayeredRepeat(LayeredRepeat.Settings.DEFAULTS),
        new Ending(Ending.Settings.DEFAULTS));
  }
}
