package undersong.lesson.drill;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import undersong.technique.Technique;

/** What an exercise asks, and what its levels change. */
public enum DrillKind {
  RESTING_TONE(
      "Sing the resting tone",
      "1: four chords, major. 2: also minor, ending away from home. 3: borrowed chords on the"
          + " way."),
  TUNE_SYLLABLES(
      "Answer the tune in syllables",
      "1: three steps. 2: four notes with leaps. 3: five, one of them altered."),
  BASS_SYLLABLES(
      "Answer the bass in syllables",
      "1: three roots. 2: four, with inversions. 3: five, one of them altered."),
  EARLY_BAR(
      "Which bar had the early chord?",
      "1: a whole beat early. 2: half a beat. 3: half a beat, without clicks."),
  QUALITY(
      "Name the chord's quality",
      "1: major or minor. 2: also diminished and augmented. 3: also sevenths."),
  ADDED_NOTE(
      "What did the second verse add?",
      "1: a major or minor third. 2: also a seventh or ninth. 3: the same, twice as fast."),
  TENSION(
      "What does the bass do to the note?",
      "1: it makes it root, third or fifth. 2: also seventh. 3: also ninth, fourth, thirteenth."),
  LOOP(
      "Name the numerals of the loop",
      "1: three chords in major. 2: four, minor too. 3: four, one borrowed or applied."),
  ECHO_OR_AGAIN(
      "Echo, or sung again?",
      "1: a strong echo. 2: a soft one. 3: the second time is sung almost alike."),
  PLACE("Left, right or middle?", "1: far out. 2: half-way. 3: a little, two lines at once.");

  public static final int LEVELS = 3;

  private final String title;
  private final String levels;

  DrillKind(String title, String levels) {
    this.title = title;
    this.levels = levels;
  }

  public String title() {
    return title;
  }

  /** What each level changes, in words. */
  public String levels() {
    return levels;
  }

  public String id() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Throws on a name that is none. */
  public static DrillKind named(String id) {
    return Arrays.stream(values())
        .filter(kind -> kind.id().equals(id))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "There is no kind of drill \"%s\"; there are %s."
                        .formatted(id, Arrays.stream(values()).map(DrillKind::id).toList())));
  }

  /** Kinds that train the ear for these techniques; the basic ones where none does. */
  public static Set<DrillKind> of(List<Technique> techniques) {
    Set<DrillKind> kinds = EnumSet.noneOf(DrillKind.class);
    techniques.forEach(technique -> kinds.addAll(of(technique)));
    kinds.add(RESTING_TONE);
    kinds.add(TUNE_SYLLABLES);
    kinds.add(BASS_SYLLABLES);
    return kinds;
  }

  private static Set<DrillKind> of(Technique technique) {
    return switch (technique) {
      case ANTICIPATED_CHANGES, SYNCOPATED_BASS, HARMONIC_RHYTHM_CHANGE, THREE_THREE_TWO ->
          EnumSet.of(EARLY_BAR);
      case WITHHELD_THIRD, LAYERED_REPEAT -> EnumSet.of(ADDED_NOTE, QUALITY);
      case GUIDE_TONE_SWITCH, CHROMATIC_INNER_LINE -> EnumSet.of(QUALITY);
      case TENSION_TONE, REINTERPRETED_TONE, PEDAL_POINT -> EnumSet.of(TENSION);
      case ECHO, DELAY_THROW, RESUNG_ECHO, WIDE_DOUBLE -> EnumSet.of(ECHO_OR_AGAIN);
      case ALTERNATING_PAN, WIDTH_CHANGE -> EnumSet.of(PLACE);
      default ->
          technique.family() == Technique.Family.HARMONY
              ? EnumSet.of(LOOP, QUALITY)
              : EnumSet.noneOf(DrillKind.class);
    };
  }
}
