package undersong.estimate.space;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.reading.PlacedEvent;
import undersong.reading.SoundSource;
import undersong.time.Span;

/**
 * Struck sounds: the strokes of each kind that the ear tells apart are placed, and strokes that
 * follow each other in one place are told as one event.
 */
final class StruckEvents {
  private static final double LIMIT = 0.5;
  private static final double LONGEST_GAP_SECONDS = 2.5;
  private static final double SAME_PLACE = 0.2;

  /** Where kick, snare and cymbal are best told from the rest. */
  private static final double[][] BANDS_HZ = {{40, 150}, {180, 5000}, {6000, 16_000}};

  private final StereoPowers powers;
  private final Increments increments;

  StruckEvents(StereoPowers powers) {
    this.powers = powers;
    this.increments = new Increments(powers);
  }

  List<PlacedEvent> of(EarActivations ear) {
    List<PlacedEvent> events = new ArrayList<>();
    FrameMatrix drums = ear.head(EarHead.DRUMS);
    for (int kind = 0; kind < drums.bins(); kind++) {
      List<Sighting> strokes = strokes(drums, kind);
      List<Sighting> settled = Settling.settled(strokes);
      int first = 0;
      for (int i = 1; i <= settled.size(); i++) {
        if (i == settled.size() || !goesOn(settled.get(i - 1), settled.get(i))) {
          events.add(told(settled.subList(first, i), BANDS_HZ[kind]));
          first = i;
        }
      }
    }
    return events;
  }

  private static boolean goesOn(Sighting before, Sighting here) {
    return here.startSeconds() - before.endSeconds() <= LONGEST_GAP_SECONDS
        && Math.abs(here.placement() - before.placement()) <= SAME_PLACE;
  }

  private List<Sighting> strokes(FrameMatrix drums, int kind) {
    List<Integer> bins =
        IntStream.range(0, StereoImage.BINS)
            .filter(
                bin ->
                    StereoImage.edgeHz(bin + 1) > BANDS_HZ[kind][0]
                        && StereoImage.edgeHz(bin) < BANDS_HZ[kind][1])
            .boxed()
            .toList();
    List<Sighting> strokes = new ArrayList<>();
    for (int frame = 1; frame < drums.frames() - 1; frame++) {
      float here = drums.at(frame, kind);
      if (here < LIMIT || here < drums.at(frame - 1, kind) || here <= drums.at(frame + 1, kind)) {
        continue;
      }
      double seconds = drums.clock().secondsAt(frame);
      Increments.Place place = increments.at(seconds, 0.08, bins);
      double mix = 0;
      for (int bin = 0; bin < StereoImage.BINS; bin++) {
        mix += powers.power(powers.frameAt(seconds + 0.02), bin);
      }
      if (place.power() > 0 && mix > 0) {
        strokes.add(
            new Sighting(
                seconds,
                seconds + 0.1,
                0,
                place.placement(),
                here * place.agreement(),
                10 * Math.log10(place.power() / mix)));
      }
    }
    return strokes;
  }

  private static PlacedEvent told(List<Sighting> strokes, double[] bandHz) {
    double weight = strokes.stream().mapToDouble(Sighting::weight).sum();
    double place = strokes.stream().mapToDouble(s -> s.weight() * s.placement()).sum();
    double power =
        strokes.stream().mapToDouble(s -> Math.pow(10, s.strengthDb() / 10)).average().orElse(0);
    double mean = weight / strokes.size();
    return new PlacedEvent(
        new Span(strokes.get(0).startSeconds(), strokes.get(strokes.size() - 1).endSeconds()),
        SoundSource.STRUCK,
        OptionalDouble.empty(),
        bandHz[0],
        bandHz[1],
        weight > 0 ? PlacedSpace.rounded(place / weight) : 0,
        PlacedSpace.rounded(Math.max(-60, 10 * Math.log10(power))),
        Math.min(0.95, mean / (mean + 0.15)));
  }
}
