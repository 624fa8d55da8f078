package undersong.study;

import java.util.List;
import java.util.stream.Stream;
import undersong.technique.Calibration;
import undersong.technique.Techniques;
import undersong.technique.form.FormFinders;
import undersong.technique.harmony.HarmonyFinders;
import undersong.technique.melody.MelodyFinders;
import undersong.technique.production.ProductionFinders;
import undersong.technique.rhythm.RhythmFinders;

/** Who finds the techniques: the one place where the families come together. */
public final class TechniqueFinders {
  /** Raise whenever a finder would find something else in an equal reading. */
  static final String VERSION = "18";

  private TechniqueFinders() {}

  /** The finders the program works with. */
  public static Techniques standard() {
    return with(Calibration.standard());
  }

  /** The same, each as sure as it says itself: what the calibration is fitted on. */
  public static Techniques uncalibrated() {
    return with(Calibration.NONE);
  }

  private static Techniques with(Calibration calibration) {
    return new Techniques(
        Stream.of(
                HarmonyFinders.all(),
                MelodyFinders.all(),
                RhythmFinders.all(),
                FormFinders.all(),
                ProductionFinders.all())
            .flatMap(List::stream)
            .toList(),
        calibration);
  }
}
