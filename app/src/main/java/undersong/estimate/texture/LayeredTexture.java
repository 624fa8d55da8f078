package undersong.estimate.texture;

import java.lang.ref.WeakReference;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import undersong.estimate.Estimator;
import undersong.estimate.HeardNotes;
import undersong.estimate.HeardNotes.HeardNote;
import undersong.feature.Features;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.reading.Bar;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Ducking;
import undersong.reading.Dynamics;
import undersong.reading.Facet;
import undersong.reading.Gesture;
import undersong.reading.Layer;
import undersong.reading.Meter;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.reading.Section;
import undersong.reading.Texture;
import undersong.time.BeatGrid;
import undersong.time.Span;

/**
 * Layers, the sound of each bar, gestures and ducking.
 *
 * <p><b>Silence</b>, and a program without its trained ear, give no layers but sub-bass and lead.
 * <b>Cost:</b> O(frames * 98) once per recording, O(bars * frames of a bar) at each correction.
 */
public final class LayeredTexture implements Estimator<Texture> {
  private static final double NO_PULSE_BAR_SECONDS = 2;

  private final RestSettings settings;
  private WeakReference<Features> lastFeatures = new WeakReference<>(null);
  private StereoPowers lastPowers = StereoPowers.of(StereoImage.NOTHING);
  private List<HeardNote> lastNotes = List.of();
  private Moves lastMoves = Moves.NONE;

  public LayeredTexture(RestSettings settings) {
    this.settings = settings;
  }

  @Override
  public synchronized Derived<Texture> estimate(
      Features features, Reading earlier, Corrections corrections) {
    measureOnce(features);
    StereoPowers powers = lastPowers;
    List<Bar> bars = earlier.get(Facet.METER).bars();
    int usualBarsPerBar = earlier.get(Facet.METER).usualBarsPerBar();
    double barSeconds = barSeconds(earlier);
    List<NoteEvent> bass = earlier.get(Facet.BASS).notes();
    List<NoteEvent> lead = earlier.get(Facet.MELODY).notes();
    List<Layer> layers =
        powers.frames() == 0
            ? new ArrayList<>()
            : new ArrayList<>(
                new LayerFinder(features, powers, lastNotes, barSeconds)
                    .of(
                        bass,
                        lead,
                        new PlayerLayers(features, powers, barSeconds, song(earlier))
                            .layers(bass, lead, settings)));
    List<Correction> unplaced = new ArrayList<>();
    for (CorrectionEntry entry : corrections.of(Facet.TEXTURE).entries()) {
      layOver(layers, entry.correction(), features.durationSeconds(), unplaced);
    }
    layers.sort(
        Comparator.comparingDouble((Layer layer) -> layer.span().startSeconds())
            .thenComparing(Layer::kind));
    Moves moves = moves(features, bars, usualBarsPerBar, earlier.get(Facet.FORM).sections());
    List<Double> onsets =
        earlier.find(Facet.DYNAMICS).map(Dynamics::onsetsPerBeat).orElse(List.of());
    return new Derived<>(
        new Texture(
            layers,
            SnareStrokes.in(
                BarSounds.of(features, bars, onsets),
                bars,
                earlier.get(Facet.BEATS).grid(),
                features),
            moves.gestures(),
            moves.ducking()),
        unplaced);
  }

  /** Of a usual bar as it is felt. */
  static double barSeconds(Reading reading) {
    Meter meter = reading.get(Facet.METER);
    double felt =
        meter.bars().stream()
            .mapToDouble(bar -> bar.span().lengthSeconds())
            .sorted()
            .skip(meter.bars().size() / 2)
            .findFirst()
            .orElse(NO_PULSE_BAR_SECONDS);
    return felt / meter.usualBarsPerBar();
  }

  /** From the first to the last beat; without beats, the recording. */
  static Span song(Reading reading) {
    BeatGrid grid = reading.get(Facet.BEATS).grid();
    return grid.size() < 2
        ? new Span(0, reading.durationSeconds())
        : new Span(grid.secondsAt(0), grid.secondsAt(grid.size() - 1));
  }

  /** What no correction changes is measured once per recording, so that answers come fast. */
  @SuppressWarnings("ReferenceEquality") // the very same features; comparing them costs more
  private void measureOnce(Features features) {
    if (lastFeatures.get() != features) {
      lastPowers = StereoPowers.of(features.image());
      lastNotes = features.heard().map(HeardNotes::of).orElse(List.of());
      lastFeatures = new WeakReference<>(features);
      lastMoves = Moves.NONE;
    }
  }

  /** Gestures and ducking change with bars and sections only. */
  private Moves moves(
      Features features, List<Bar> bars, int usualBarsPerBar, List<Section> sections) {
    if (!lastMoves.bars().equals(bars) || !lastMoves.sections().equals(sections)) {
      lastMoves =
          new Moves(
              bars,
              sections,
              new GestureFinder(features, lastPowers).of(bars, sections, usualBarsPerBar),
              new DuckingFinder(features).of(bars));
    }
    return lastMoves;
  }

  private record Moves(
      List<Bar> bars, List<Section> sections, List<Gesture> gestures, List<Ducking> ducking) {
    static final Moves NONE = new Moves(List.of(), List.of(), List.of(), List.of());
  }

  private static void layOver(
      List<Layer> layers,
      Correction correction,
      double durationSeconds,
      List<Correction> unplaced) {
    if (!(correction instanceof Correction.LayerOver over)
        || over.span().startSeconds() >= durationSeconds) {
      unplaced.add(correction);
      return;
    }
    double start = over.span().startSeconds();
    double end = over.span().endSeconds();
    OptionalDouble decay = OptionalDouble.empty();
    for (Layer layer : List.copyOf(layers)) {
      if (layer.kind() != over.layer()
          || layer.span().startSeconds() > over.span().endSeconds()
          || layer.span().endSeconds() < over.span().startSeconds()) {
        continue;
      }
      layers.remove(layer);
      if (over.sounds()) { // one stretch with those it touches
        start = Math.min(start, layer.span().startSeconds());
        end = Math.max(end, layer.span().endSeconds());
        decay = layer.decaySeconds();
      } else {
        keep(layer, layer.span().startSeconds(), over.span().startSeconds(), layers);
        keep(layer, over.span().endSeconds(), layer.span().endSeconds(), layers);
      }
    }
    if (over.sounds()) {
      layers.add(new Layer(over.layer(), new Span(start, end), decay, 1));
    }
  }

  private static void keep(Layer layer, double start, double end, List<Layer> layers) {
    if (end - start > 0.05) {
      layers.add(
          new Layer(layer.kind(), new Span(start, end), layer.decaySeconds(), layer.probability()));
    }
  }
}
