package undersong.lesson.drill;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import undersong.reading.Facet;
import undersong.reading.HarmonyEvent;
import undersong.reading.Reading;
import undersong.theory.Key;
import undersong.theory.Mode;
import undersong.theory.NoteName;
import undersong.theory.RomanNumeral;
import undersong.time.Span;

/**
 * What of a song the exercises use: its mode, its pace and the chords it goes through; no tune, no
 * bass line.
 *
 * @param bpm between 60 and 140; the song's, halved or doubled into that range
 * @param loops successions of two to four different numerals as the song has them
 */
public record DrillSource(Mode mode, double bpm, List<List<RomanNumeral>> loops) {
  private static final int MOST_CHORDS = 4;

  public DrillSource {
    loops = loops.stream().map(List::copyOf).toList();
    if (!(bpm >= 60 && bpm <= 140)) {
      throw new IllegalArgumentException(
          "A pace of %s bpm must lie within 60 to 140.".formatted(bpm));
    }
  }

  /** A song in major at a walking pace. */
  public static final DrillSource PLAIN = new DrillSource(Mode.MAJOR, 92, List.of());

  /**
   * @param spans where the lesson's techniques stand; all of the song where there are none
   */
  public static DrillSource of(Reading reading, List<Span> spans) {
    double bpm =
        reading.get(Facet.BEATS).grid().isEmpty()
            ? 92
            : reading.get(Facet.BEATS).grid().medianBpm();
    while (bpm < 60) {
      bpm *= 2;
    }
    while (bpm > 140) {
      bpm /= 2;
    }
    Mode mode =
        reading.get(Facet.KEYS).mainKey().orElse(new Key(new NoteName(0), Mode.MAJOR)).mode();
    List<List<RomanNumeral>> loops = new ArrayList<>();
    List<HarmonyEvent> events = reading.get(Facet.HARMONY).events();
    for (Span span : spans) {
      List<RomanNumeral> loop = new ArrayList<>();
      for (HarmonyEvent event : events) {
        if (event.span().overlaps(span)) {
          event
              .numeral()
              .filter(n -> n.quality().hasMajorThird() || n.quality().hasMinorThird())
              .ifPresent(loop::add);
        }
      }
      different(loop).filter(found -> !loops.contains(found)).ifPresent(loops::add);
    }
    return new DrillSource(mode, bpm, loops);
  }

  /** The first few numerals that all differ; empty where there are fewer than two. */
  private static Optional<List<RomanNumeral>> different(List<RomanNumeral> numerals) {
    List<RomanNumeral> loop = new ArrayList<>();
    for (RomanNumeral numeral : numerals) {
      if (loop.contains(numeral) || loop.size() == MOST_CHORDS) {
        break;
      }
      loop.add(numeral);
    }
    return loop.size() >= 2 ? Optional.of(List.copyOf(loop)) : Optional.empty();
  }
}
