package undersong.render.score;

import java.util.List;
import undersong.reading.TimeSignature;

/**
 * A song as written.
 *
 * @param meter of the sections that have none of their own
 * @param bpm of the sections that have none of their own
 * @param swingRatio first eighth over second; 1 = even
 * @param tuningCents of the whole song above A = 440 Hz
 * @param offsetSeconds silence before the first bar line
 * @param tailSeconds sound after the last bar line
 * @param gainDecibels of the whole mix
 * @param fadeBars over so many bars at the end the song fades out; 0 = it does not
 */
public record Score(
    String title,
    String artist,
    TimeSignature meter,
    double bpm,
    double swingRatio,
    double tuningCents,
    double offsetSeconds,
    double tailSeconds,
    double gainDecibels,
    int fadeBars,
    long seed,
    List<Part> parts,
    List<ScoreSection> sections) {
  public Score {
    parts = List.copyOf(parts);
    sections = List.copyOf(sections);
  }

  int bars() {
    return sections.stream().mapToInt(ScoreSection::bars).sum();
  }

  /** Beats of all sections. */
  int beats() {
    return sections.stream().mapToInt(ScoreSection::beats).sum();
  }

  /** Seconds of a place in beats from the first bar line, swing applied. */
  double secondsAt(double beat) {
    double seconds = offsetSeconds;
    double rest = swung(beat);
    for (ScoreSection section : sections) {
      if (rest <= section.beats()) {
        return seconds + rest * 60 / section.bpm();
      }
      seconds += section.beats() * 60 / section.bpm();
      rest -= section.beats();
    }
    return seconds + rest * 60 / sections.get(sections.size() - 1).bpm();
  }

  /** Length of the recording. */
  public double durationSeconds() {
    return secondsAt(beats()) + tailSeconds;
  }

  private double swung(double beat) {
    double whole = StrictMath.floor(beat);
    double rest = beat - whole;
    double first = swingRatio / (1 + swingRatio);
    return whole + (rest < 0.5 ? 2 * rest * first : first + (2 * rest - 1) * (1 - first));
  }
}
