package undersong.lesson.drill;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/**
 * Makes exercises. Equal seeds make equal ones; there is no end of seeds.
 *
 * <p><b>Cost:</b> less than a millisecond each.
 */
public final class DrillMaker {
  private DrillMaker() {}

  /**
   * @param level 1 to {@link DrillKind#LEVELS}
   */
  public static Drill make(DrillKind kind, int level, long seed, DrillSource source) {
    if (level < 1 || level > DrillKind.LEVELS) {
      throw new IllegalArgumentException(
          "Level %d of %s must lie within 1 to %d.".formatted(level, kind.id(), DrillKind.LEVELS));
    }
    SplittableRandom random = new SplittableRandom(seed * 31 + kind.id().hashCode() * 3L + level);
    return switch (kind) {
      case RESTING_TONE -> HarmonyDrills.restingTone(level, random, source);
      case TUNE_SYLLABLES -> SyllableDrills.tune(level, random, source);
      case BASS_SYLLABLES -> SyllableDrills.bass(level, random, source);
      case EARLY_BAR -> HarmonyDrills.earlyBar(level, random, source);
      case QUALITY -> HarmonyDrills.quality(level, random);
      case ADDED_NOTE -> HarmonyDrills.addedNote(level, random, source);
      case TENSION -> HarmonyDrills.tension(level, random);
      case LOOP -> HarmonyDrills.loop(level, random, source);
      case ECHO_OR_AGAIN -> SoundDrills.echoOrAgain(level, random, source);
      case PLACE -> SoundDrills.place(level, random);
    };
  }

  /** A set of every kind and level given, the same number of each. */
  public static List<Drill> set(
      Iterable<DrillKind> kinds, int each, long seed, DrillSource source) {
    List<Drill> drills = new ArrayList<>();
    for (DrillKind kind : kinds) {
      for (int level = 1; level <= DrillKind.LEVELS; level++) {
        for (int i = 0; i < each; i++) {
          drills.add(make(kind, level, seed * 1000 + i, source));
        }
      }
    }
    return drills;
  }
}
