package undersong.estimate.space;

import java.lang.ref.WeakReference;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import undersong.estimate.Estimator;
import undersong.estimate.HeardNotes;
import undersong.estimate.PlaceVotes.Manner;
import undersong.feature.Features;
import undersong.feature.StereoPowers;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.PlacedEvent;
import undersong.reading.Reading;
import undersong.reading.Space;

/**
 * Where sounds stand, read off the powers of both channels: the lead phrase by phrase, the other
 * pitched sounds and the strokes by what each adds when it begins.
 *
 * <p><b>Silence</b>, and a program without its trained ear, give no events; width needs no ear.
 * <b>Cost:</b> O(frames * 98) and O(notes * 40).
 */
public final class PlacedSpace implements Estimator<Space> {
  private WeakReference<Features> lastFeatures = new WeakReference<>(null);
  private StereoPowers lastPowers = StereoPowers.of(undersong.feature.StereoImage.NOTHING);
  private LineEvents lastLines = new LineEvents(lastPowers, List.of());
  private List<PlacedEvent> lastStrokes = List.of();

  @Override
  public synchronized Derived<Space> estimate(
      Features features, Reading earlier, Corrections corrections) {
    measureOnce(features);
    WidthMeter width = new WidthMeter(lastPowers);
    List<PlacedEvent> events = new ArrayList<>();
    if (lastPowers.frames() > 0) {
      events.addAll(lastStrokes);
      events.addAll(
          new LeadEvents(lastPowers, Manner.TOGETHER).of(earlier.get(Facet.MELODY).notes()));
      events.addAll(
          lastLines.of(earlier.get(Facet.MELODY).notes(), earlier.get(Facet.BASS).notes()));
    }
    events.sort(
        Comparator.comparingDouble((PlacedEvent e) -> e.span().startSeconds())
            .thenComparing(PlacedEvent::source)
            .thenComparingDouble(PlacedEvent::bottomHz));
    List<Correction> unplaced = new ArrayList<>();
    for (CorrectionEntry entry : corrections.of(Facet.SPACE).entries()) {
      layOver(events, entry.correction(), unplaced);
    }
    Space space =
        new Space(
            width.bars(earlier.get(Facet.METER).bars()),
            events,
            width.foldDownLossDb(features.durationSeconds()));
    return new Derived<>(space, unplaced);
  }

  /** What no correction changes is measured once per recording, so that answers come fast. */
  @SuppressWarnings("ReferenceEquality") // the very same features; comparing them costs more
  private void measureOnce(Features features) {
    if (lastFeatures.get() != features) {
      lastPowers = StereoPowers.of(features.image());
      lastLines =
          new LineEvents(lastPowers, features.heard().map(HeardNotes::of).orElse(List.of()));
      lastStrokes =
          lastPowers.frames() == 0
              ? List.of()
              : features.heard().map(new StruckEvents(lastPowers)::of).orElse(List.of());
      lastFeatures = new WeakReference<>(features);
    }
  }

  private static void layOver(
      List<PlacedEvent> events, Correction correction, List<Correction> unplaced) {
    boolean met = false;
    if (correction instanceof Correction.PlacementOver over) {
      double middle = over.span().middleSeconds();
      for (int i = 0; i < events.size(); i++) {
        PlacedEvent event = events.get(i);
        if (event.source() == over.source() && event.span().contains(middle)) {
          events.set(i, event.at(over.placement()));
          met = true;
        }
      }
    }
    if (!met) {
      unplaced.add(correction);
    }
  }

  static double rounded(double value) {
    return Math.round(value * 1000) / 1000.0;
  }
}
