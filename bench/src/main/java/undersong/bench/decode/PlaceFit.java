package undersong.bench.decode;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import undersong.bench.metrics.SpaceMetrics;
import undersong.bench.metrics.SungNote;
import undersong.bench.render.Staging;
import undersong.bench.render.Truth;
import undersong.estimate.PlaceVotes.Manner;
import undersong.estimate.space.LeadEvents;
import undersong.feature.Features;
import undersong.feature.StereoPowers;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.PlacedEvent;
import undersong.reading.Reading;

/**
 * Tries ways of saying where the lead stands on tuning songs, and prints the mean error of its
 * panning index, a copy's notes together: best last.
 */
public final class PlaceFit {
  private static final double[] LOWEST_HZ = {120, 300};
  private static final int[] LIKENESS_POWERS = {2, 4, 8, 16};
  private static final int[] REACHES = {5, 10, 15, 20, 25};
  private static final double SAME_ONSET_SECONDS = 0.005;

  private final Map<String, Map<Manner, List<Double>>> errors = new TreeMap<>();

  private PlaceFit() {}

  /**
   * @param arguments cache and soundfont, as the bench has them; then the sets
   */
  public static void main(String[] arguments) throws IOException {
    PlaceFit fit = new PlaceFit();
    TuningSong.eachOf(
        Path.of(arguments[0]),
        Path.of(arguments[1]),
        List.of(arguments).subList(2, arguments.length),
        (set, truth, id, studied, features) ->
            fit.add(
                set + (id.contains("worn") ? " worn" : " clean"),
                truth,
                features,
                studied.stored().reading()));
    manners().stream()
        .sorted(Comparator.comparingDouble((Manner manner) -> -fit.mean(manner)))
        .forEach(
            manner -> {
              StringBuilder line = new StringBuilder("%.4f".formatted(fit.mean(manner)));
              fit.errors.forEach(
                  (copy, of) -> line.append(" %s %.4f".formatted(copy, mean(of.get(manner)))));
              System.out.println(line.append(" ").append(manner));
            });
  }

  private static List<Manner> manners() {
    List<Manner> manners = new ArrayList<>();
    for (double lowest : LOWEST_HZ) {
      for (int likeness : LIKENESS_POWERS) {
        for (int reach : REACHES) {
          manners.add(new Manner(lowest, likeness, reach));
        }
      }
    }
    return manners;
  }

  private double mean(Manner manner) {
    return errors.values().stream().mapToDouble(of -> mean(of.get(manner))).average().orElse(0);
  }

  private static double mean(List<Double> values) {
    return values.stream().mapToDouble(v -> v).average().orElse(0);
  }

  private void add(String copy, Truth truth, Features features, Reading reading) {
    List<SpaceMetrics.Sound> sounds = sounds(truth);
    StereoPowers powers = StereoPowers.of(features.image());
    List<NoteEvent> lead = reading.get(Facet.MELODY).notes();
    for (Manner manner : manners()) {
      List<SpaceMetrics.Placed> placed =
          new LeadEvents(powers, manner).of(lead).stream().map(PlaceFit::placed).toList();
      double error = SpaceMetrics.placement(sounds, placed).meanError();
      if (!Double.isNaN(error)) {
        errors
            .computeIfAbsent(copy, key -> new java.util.HashMap<>())
            .computeIfAbsent(manner, key -> new ArrayList<>())
            .add(error);
      }
    }
  }

  private static SpaceMetrics.Placed placed(PlacedEvent event) {
    return new SpaceMetrics.Placed(
        event.span().startSeconds(),
        event.span().endSeconds(),
        event.bottomHz(),
        event.topHz(),
        event.placement());
  }

  /** The lead's notes where they stand, without those that are doubled. */
  private static List<SpaceMetrics.Sound> sounds(Truth truth) {
    Staging staging = truth.staging();
    List<SpaceMetrics.Sound> sounds = new ArrayList<>();
    for (SungNote note : truth.melody()) {
      boolean doubled =
          staging.takes().stream()
              .filter(take -> take.kind() == Staging.TakeKind.DOUBLE && take.part().equals("lead"))
              .anyMatch(
                  take ->
                      take.startSeconds() < note.endSeconds()
                          && note.startSeconds() < take.endSeconds());
      if (!doubled) {
        double placed =
            staging.placements().stream()
                .filter(p -> p.part().equals("lead"))
                .filter(
                    p ->
                        note.startSeconds() >= p.startSeconds() - SAME_ONSET_SECONDS
                            && note.startSeconds() < p.endSeconds())
                .mapToDouble(Staging.Placement::placement)
                .findFirst()
                .orElse(0);
        double moved =
            staging.stands().stream()
                .filter(s -> s.part().equals("lead"))
                .filter(s -> Math.abs(s.startSeconds() - note.startSeconds()) < SAME_ONSET_SECONDS)
                .mapToDouble(Staging.Stand::placement)
                .findFirst()
                .orElse(placed);
        sounds.add(new SpaceMetrics.Sound(note, moved));
      }
    }
    return sounds;
  }
}
