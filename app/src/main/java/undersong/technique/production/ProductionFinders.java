package undersong.technique.production;

import java.util.List;
import undersong.technique.TechniqueFinder;

/** Every finder of this family. */
public final class ProductionFinders {
  private ProductionFinders() {}

  public static List<TechniqueFinder> all() {
    return List.of(
        new AlternatingPan(AlternatingPan.Settings.DEFAULTS),
        new Copies(Copies.Settings.DEFAULTS),
        new WidthChange(WidthChange.Settings.DEFAULTS),
        new Gestures(Gestures.Settings.DEFAULTS),
        new SubBassEntry(SubBassEntry.Settings.DEFAULTS),
        new DrumDropout(DrumDropout.Settings.DEFAULTS),
        new Pumping(Pumping.Settings.DEFAULTS),
        new PluckedLayer(PluckedLayer.Settings.DEFAULTS),
        new VocalStack(VocalStack.Settings.DEFAULTS),
        new ResungEcho(ResungEcho.Settings.DEFAULTS));
  }
}
