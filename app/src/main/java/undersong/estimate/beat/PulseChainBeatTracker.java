package undersong.estimate.beat;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Function;
import undersong.estimate.Estimator;
import undersong.feature.Features;
import undersong.reading.Beats;
import undersong.reading.Candidate;
import undersong.reading.Correction;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Reading;
import undersong.time.BeatGrid;
import undersong.time.FrameClock;

/**
 * Tracks beats with a chain over beat strengths along a slowly moving tempo, and decides the
 * metrical level by what sounds on, between and across the beats of every level within reach.
 *
 * <p>Cost: linear in the length of the recording; a few thousand steps a second of music.
 */
public final class PulseChainBeatTracker implements Estimator<Beats> {
  /** Onset strength rises as an attack enters the window: so much before the attack itself. */
  private static final double ONSET_LEAD_SECONDS = -0.018;

  private static final double KEEP_GAIN = 0.4;
  private static final double PIN_GAIN = 12;
  private static final double PIN_EVIDENCE = 50;
  private static final double PIN_WEIGHT = 200;
  private static final double STIFFNESS = 1.5;
  private static final double LEAST_STROKES = 2;
  private static final double LEAST_SECONDS = 2;

  private final Function<Features, BeatActivation> activations;

  /** Over onset features. */
  public PulseChainBeatTracker() {
    this(ClassicalBeatActivation::of);
  }

  PulseChainBeatTracker(Function<Features, BeatActivation> activations) {
    this.activations = activations;
  }

  @Override
  public Derived<Beats> estimate(Features features, Reading earlier, Corrections corrections) {
    BeatActivation activation = activations.apply(features);
    FrameClock clock = activation.clock();
    SoundingExtent extent = SoundingExtent.of(features.bandLevelsDb(), clock, activation.frames());
    if (!hasStrokes(activation, extent)) {
      return withoutPulse(corrections);
    }
    PulseSearch search = search(features, activation, extent);
    List<PulseSearch.Weighed> weighed = search.weigh();
    if (weighed.isEmpty()) {
      return withoutPulse(corrections);
    }
    PulseSearch.Weighed best =
        weighed.stream().max(Comparator.comparing(PulseSearch.Weighed::probability)).get();
    BeatPins pins = BeatPins.of(corrections, features.durationSeconds(), best.bpm());
    double[] pinFrames = pins.beatSeconds().clone();
    for (int i = 0; i < pinFrames.length; i++) {
      pinFrames[i] = (pinFrames[i] - ONSET_LEAD_SECONDS) * clock.framesPerSecond();
    }
    PulseHypothesis level = atLevel(search, best, pins.level(), pinFrames);
    PulseHypothesis pulse = pinned(search, level, pinFrames, activation.frames());
    double[] beatFrames = settled(pulse.beatFrames(), activation.beat().toArray(), pinFrames);
    BeatGrid grid = grid(beatFrames, clock, pins.beatSeconds());
    if (grid.isEmpty()) {
      return withoutPulse(corrections);
    }
    BeatDivision division = BeatDivision.of(activation.beat().toArray(), beatFrames);
    boolean said = pins.level() != 1 || pinFrames.length > 0;
    Beats beats =
        new Beats(
            grid,
            division.tatumsPerBeat(),
            division.swingRatio(),
            said ? 1 : Math.min(1, best.probability()),
            others(weighed, best));
    return new Derived<>(beats, pins.unplaced());
  }

  private static PulseSearch search(
      Features features, BeatActivation activation, SoundingExtent extent) {
    return new PulseSearch(
        activation,
        features.heard().map(ear -> HeardPulse.of(ear, activation.frames())),
        extent.from(),
        extent.to());
  }

  /**
   * Every way of tapping that is weighed, with what speaks for it: what the weights of this choice
   * are fitted on.
   */
  public List<PulseEvidence> weighed(Features features) {
    BeatActivation activation = activations.apply(features);
    SoundingExtent extent =
        SoundingExtent.of(features.bandLevelsDb(), activation.clock(), activation.frames());
    return hasStrokes(activation, extent)
        ? search(features, activation, extent).evidence()
        : List.of();
  }

  private static boolean hasStrokes(BeatActivation activation, SoundingExtent extent) {
    double strokes = 0;
    for (int i = extent.from(); i < extent.to(); i++) {
      strokes += activation.beat().at(i);
    }
    return strokes >= LEAST_STROKES
        && extent.length() >= LEAST_SECONDS * activation.clock().framesPerSecond();
  }

  /** Without a pulse of its own, a recording still takes the beats a listener taps. */
  private static Derived<Beats> withoutPulse(Corrections corrections) {
    double[] tapped =
        corrections.ofKind(Correction.BeatAt.class).stream()
            .mapToDouble(Correction.BeatAt::seconds)
            .filter(seconds -> seconds >= 0)
            .distinct()
            .sorted()
            .toArray();
    if (tapped.length < 2) {
      return new Derived<>(
          new Beats(BeatGrid.NO_PULSE, 2, 1, 1, List.of()), BeatPins.all(corrections));
    }
    List<Correction> levels = List.copyOf(corrections.ofKind(Correction.TempoLevel.class));
    return new Derived<>(new Beats(BeatGrid.of(tapped), 2, 1, 1, List.of()), levels);
  }

  /** The chosen level, or the one the listener asked for, in the phase its pins speak for. */
  private static PulseHypothesis atLevel(
      PulseSearch search, PulseSearch.Weighed best, double factor, double[] pinFrames) {
    PulseHypothesis pulse = best.pulse();
    if (factor != 1) {
      double[] keep = new double[search.frames()];
      bump(keep, pulse.beatFrames(), 1);
      pulse = search.pulse(pulse.level() * factor, keep);
    }
    if (pinFrames.length == 0 || pulse.beatFrames().length < 4) {
      return pulse;
    }
    List<PulseSearch.Weighed> phases = search.weigh(List.of(pulse));
    double on = Math.log(phases.get(0).probability() + 1e-9) / Math.log(PIN_EVIDENCE);
    double off = Math.log(phases.get(1).probability() + 1e-9) / Math.log(PIN_EVIDENCE);
    for (double pin : pinFrames) {
      on += near(pulse.beatFrames(), pin) ? 1 : 0;
      off += near(phases.get(1).pulse().beatFrames(), pin) ? 1 : 0;
    }
    return off > on && factor == 1 ? phases.get(1).pulse() : pulse;
  }

  private static boolean near(double[] beatFrames, double frame) {
    int at = java.util.Arrays.binarySearch(beatFrames, frame);
    int i = Math.max(0, Math.min(beatFrames.length - 2, at >= 0 ? at : -at - 2));
    double place = (frame - beatFrames[i]) / (beatFrames[i + 1] - beatFrames[i]);
    return Math.abs(place - Math.round(place)) < 0.2;
  }

  /** The chain once more, held to the chosen phase and drawn to the pins. */
  private static PulseHypothesis pinned(
      PulseSearch search, PulseHypothesis pulse, double[] pinFrames, int frames) {
    double[] extra = new double[frames];
    bump(extra, pulse.beatFrames(), KEEP_GAIN);
    bump(extra, pinFrames, PIN_GAIN);
    return search.again(pulse, pinFrames, extra);
  }

  private static void bump(double[] gain, double[] frames, double height) {
    for (double at : frames) {
      int frame = (int) Math.round(at);
      for (int i = Math.max(0, frame - 1); i <= Math.min(gain.length - 1, frame + 1); i++) {
        gain[i] += i == frame ? height : height / 2;
      }
    }
  }

  /** Beats between the frames: on the peak near each, evened out, the pins held fast. */
  private static double[] settled(double[] beatFrames, float[] strengths, double[] pinFrames) {
    double[] heard = beatFrames.clone();
    double[] weight = new double[heard.length];
    for (int i = 0; i < heard.length; i++) {
      int peak = (int) Math.round(heard[i]);
      for (int step = -1; step <= 1; step++) {
        int frame = (int) Math.round(heard[i]) + step;
        if (frame >= 0 && frame < strengths.length && strengths[frame] > strengths[peak]) {
          peak = frame;
        }
      }
      weight[i] = 0.02 + strengths[peak];
      if (peak > 0 && peak + 1 < strengths.length) {
        double bend = strengths[peak - 1] - 2 * strengths[peak] + strengths[peak + 1];
        double shift = bend < 0 ? 0.5 * (strengths[peak - 1] - strengths[peak + 1]) / bend : 0;
        heard[i] = peak + Math.max(-0.5, Math.min(0.5, shift));
      }
    }
    for (double pin : pinFrames) {
      int nearest = 0;
      for (int i = 1; i < heard.length; i++) {
        nearest = Math.abs(beatFrames[i] - pin) < Math.abs(beatFrames[nearest] - pin) ? i : nearest;
      }
      heard[nearest] = pin;
      weight[nearest] = PIN_WEIGHT;
    }
    return BeatSmoothing.smooth(heard, weight, STIFFNESS);
  }

  /** The beats in seconds, the listener's laid over: each takes the place of the beat beside it. */
  private static BeatGrid grid(double[] beatFrames, FrameClock clock, double[] pinSeconds) {
    List<Double> beats = new ArrayList<>();
    for (double frame : beatFrames) {
      double seconds = frame / clock.framesPerSecond() + ONSET_LEAD_SECONDS;
      if (seconds > -0.05) {
        beats.add(Math.max(0, seconds));
      }
    }
    if (beats.size() < 2) {
      return BeatGrid.NO_PULSE;
    }
    double half = 30 / BeatGrid.of(array(beats)).medianBpm();
    for (double pin : pinSeconds) {
      beats.removeIf(beat -> Math.abs(beat - pin) < half && !isPin(beat, pinSeconds));
      if (!beats.contains(pin)) {
        beats.add(pin);
      }
    }
    beats.sort(Comparator.naturalOrder());
    return beats.size() < 2 ? BeatGrid.NO_PULSE : BeatGrid.of(array(beats));
  }

  private static boolean isPin(double beat, double[] pinSeconds) {
    return java.util.Arrays.binarySearch(pinSeconds, beat) >= 0;
  }

  private static double[] array(List<Double> values) {
    return values.stream().mapToDouble(Double::doubleValue).toArray();
  }

  /** The other levels, each with all that speaks for it in either phase, likeliest first. */
  private static List<Candidate<Double>> others(
      List<PulseSearch.Weighed> weighed, PulseSearch.Weighed best) {
    List<Candidate<Double>> others = new ArrayList<>();
    for (PulseSearch.Weighed one : weighed) {
      if (!one.pulse().shifted() && one.pulse().level() != best.pulse().level()) {
        double probability =
            weighed.stream()
                .filter(other -> other.pulse().level() == one.pulse().level())
                .mapToDouble(PulseSearch.Weighed::probability)
                .sum();
        others.add(new Candidate<>(Math.round(10 * one.bpm()) / 10.0, Math.min(1, probability)));
      }
    }
    others.sort(Comparator.comparing(Candidate<Double>::probability).reversed());
    return others.stream().limit(3).toList();
  }
}
