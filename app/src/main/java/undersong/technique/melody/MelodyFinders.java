package undersong.technique.melody;

import java.util.List;
import undersong.technique.TechniqueFinder;

/** Every finder of this family. */
public final class MelodyFinders {
  private MelodyFinders() {}

  public static List<TechniqueFinder> all() {
    return List.of(
        new RegisterLift(RegisterLift.Settings.DEFAULTS),
        new MelodicPeak(MelodicPeak.Settings.DEFAULTS),
        new Figures(Figures.Settings.DEFAULTS),
        new VoicesTogether(VoicesTogether.Settings.DEFAULTS),
        new Answers(Answers.Settings.DEFAULTS),
        new Handover());
  }
}
