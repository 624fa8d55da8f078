package undersong.technique;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import undersong.reading.Facet;
import undersong.reading.Reading;
import undersong.reading.SectionRole;

/**
 * The song as a drama: how each section stands to the song's middle, where the climax is and in
 * what, and what becomes of the chorus after it.
 *
 * @param stages one per section, in order; empty where there is no form
 * @param climax place among the stages of the section that stands highest; empty where nothing can
 *     be compared
 * @param chorusReturns whether a chorus follows the climax
 * @param payoffAtEnd whether the climax lies in the last third and nothing before comes near it
 */
public record Arc(
    List<Stage> stages, Optional<Integer> climax, boolean chorusReturns, boolean payoffAtEnd) {
  /** How far ahead of every section before it a payoff must stand. */
  private static final double AHEAD = 0.5;

  public Arc {
    stages = List.copyOf(stages);
  }

  /**
   * One section against the middle of the song (the median of its sections).
   *
   * @param loudnessLu louder by
   * @param densityFactor as dense as, in onsets per beat
   * @param registerSemitones its tune higher by
   * @param widthDb wider by
   * @param isNew whether its music was not heard before
   * @param height all of it on one scale: 3 LU, 3 dB of width, 4 semitones and half as dense again
   *     count 1 each
   */
  public record Stage(
      SongSection section,
      OptionalDouble loudnessLu,
      OptionalDouble densityFactor,
      OptionalDouble registerSemitones,
      OptionalDouble widthDb,
      boolean isNew,
      double height) {}

  /** Reads METER, FORM and ROLES; DYNAMICS, MELODY, SPACE and TEXTURE where they are there. */
  public static Arc of(Reading reading) {
    List<SongSection> sections = SongSection.of(reading);
    List<SectionSound> sounds =
        sections.stream().map(section -> SectionSound.of(reading, section)).toList();
    OptionalDouble lufs = median(sounds.stream().map(SectionSound::lufs).toList());
    OptionalDouble density = median(sounds.stream().map(SectionSound::onsetsPerBeat).toList());
    OptionalDouble register = median(sounds.stream().map(SectionSound::register).toList());
    OptionalDouble width = median(sounds.stream().map(SectionSound::sideToMidDb).toList());
    List<Stage> stages = new ArrayList<>();
    for (int i = 0; i < sections.size(); i++) {
      SectionSound sound = sounds.get(i);
      OptionalDouble louder = minus(sound.lufs(), lufs);
      OptionalDouble denser = over(sound.onsetsPerBeat(), density);
      OptionalDouble higher = minus(sound.register(), register);
      OptionalDouble wider = minus(sound.sideToMidDb(), width);
      double height =
          louder.orElse(0) / 3
              + Math.log(Math.max(0.1, denser.orElse(1))) / Math.log(1.5)
              + higher.orElse(0) / 4
              + Math.max(-12, Math.min(12, wider.orElse(0))) / 3;
      boolean isNew = sections.get(i).section().occurrence() == 1;
      stages.add(new Stage(sections.get(i), louder, denser, higher, wider, isNew, height));
    }
    boolean comparable = stages.size() > 1 && reading.find(Facet.DYNAMICS).isPresent();
    return comparable ? peaked(stages, reading) : new Arc(stages, Optional.empty(), false, false);
  }

  private static Arc peaked(List<Stage> stages, Reading reading) {
    int top = 0;
    for (int i = 1; i < stages.size(); i++) {
      boolean lasts = stages.get(i).section().bars() >= 2;
      top = lasts && stages.get(i).height() > stages.get(top).height() ? i : top;
    }
    Stage climax = stages.get(top);
    int place = top;
    boolean returns =
        stages.stream().skip(place + 1L).anyMatch(stage -> stage.section().is(SectionRole.CHORUS));
    boolean late = climax.section().span().startSeconds() >= reading.durationSeconds() * 2 / 3;
    boolean ahead =
        stages.stream().limit(place).allMatch(stage -> stage.height() <= climax.height() - AHEAD);
    return new Arc(stages, Optional.of(top), returns, late && ahead);
  }

  private static OptionalDouble minus(OptionalDouble one, OptionalDouble other) {
    return one.isPresent() && other.isPresent()
        ? OptionalDouble.of(one.getAsDouble() - other.getAsDouble())
        : OptionalDouble.empty();
  }

  private static OptionalDouble over(OptionalDouble one, OptionalDouble other) {
    return one.isPresent() && other.isPresent() && other.getAsDouble() > 1e-9
        ? OptionalDouble.of(one.getAsDouble() / other.getAsDouble())
        : OptionalDouble.empty();
  }

  private static OptionalDouble median(List<OptionalDouble> values) {
    double[] sorted =
        values.stream()
            .filter(OptionalDouble::isPresent)
            .mapToDouble(OptionalDouble::getAsDouble)
            .sorted()
            .toArray();
    return sorted.length == 0
        ? OptionalDouble.empty()
        : OptionalDouble.of(sorted[sorted.length / 2]);
  }
}
