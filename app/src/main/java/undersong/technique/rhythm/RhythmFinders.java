package undersong.technique.rhythm;

import java.util.List;
import undersong.technique.TechniqueFinder;

/** Every finder of this family. */
public final class RhythmFinders {
  private RhythmFinders() {}

  public static List<TechniqueFinder> all() {
    return List.of(
        new AnticipatedChanges(AnticipatedChanges.Settings.DEFAULTS),
        new BassRhythm(BassRhythm.Settings.DEFAULTS),
        new HalfTimeFeel(HalfTimeFeel.Settings.DEFAULTS),
        new StopTime(StopTime.Settings.DEFAULTS),
        new BarLengths(BarLengths.Settings.DEFAULTS),
        new TempoChange(TempoChange.Settings.DEFAULTS),
        new HarmonicRhythmChange(HarmonicRhythmChange.Settings.DEFAULTS),
        new IrregularPhrase(IrregularPhrase.Settings.DEFAULTS));
  }
}
