package undersong.estimate.beat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import undersong.time.BeatGrid;

/** Finds the ways of tapping a recording and weighs them against each other. */
final class PulseSearch {
  private static final double SLOWEST_BPM = 40;
  private static final double FASTEST_BPM = 240;
  private static final float SILENT_TEMPO = 1e-6f;
  private static final double[] LEVELS = {
    1.0 / 4, 1.0 / 3, 1.0 / 2, 2.0 / 3, 3.0 / 4, 1, 4.0 / 3, 3.0 / 2, 2, 3, 4
  };

  private final BeatActivation activation;
  private final float[][] wide;
  private final double[] background;
  private final double[] gain;
  private final TempoCurve curve;
  private final Optional<HeardPulse> heard;
  private final float[] strongest;
  private final int from;
  private final int to;

  /** Beats heard by the trained ear are worth this much more than measured strokes. */
  private static final double HEARD_WORTH = 1.2;

  private static final double MEASURED_SHARE = 0.3;

  /**
   * @param heard what the trained ear says of the pulse, where there is one
   * @param from first sounding frame
   * @param to frame after the last
   */
  PulseSearch(BeatActivation activation, Optional<HeardPulse> heard, int from, int to) {
    this.activation = activation;
    this.heard = heard;
    this.from = from;
    this.to = to;
    wide = PulsePattern.widened(activation);
    background = new double[PulsePattern.BANDS];
    for (int band = 0; band < background.length; band++) {
      for (int i = from; i < to; i++) {
        background[band] += wide[band][i] / (to - from);
      }
    }
    gain = new double[activation.frames()];
    for (int i = 0; i < gain.length; i++) {
      double measured = activation.beat().at(i) - background[0];
      gain[i] =
          heard.isPresent()
              ? HEARD_WORTH * heard.get().at(i) + MEASURED_SHARE * measured
              : measured;
    }
    strongest = strongest(activation.tempo());
    curve = TempoCurve.of(activation.tempo(), activation.clock(), activation.frames());
  }

  int frames() {
    return activation.frames();
  }

  /** One hypothesis with its probability among those weighed. */
  record Weighed(PulseHypothesis pulse, double bpm, double probability) {}

  /** Every level within reach, each on the chain's beats and half way between them. */
  List<Weighed> weigh() {
    return weigh(levels());
  }

  private List<PulseHypothesis> levels() {
    List<PulseHypothesis> pulses = new ArrayList<>();
    double base = curve.medianBpm(activation.clock());
    for (double level : LEVELS) {
      if (base * level >= SLOWEST_BPM && base * level <= FASTEST_BPM) {
        PulseHypothesis pulse = pulse(level);
        if (pulse.beatFrames().length > 3) {
          pulses.add(pulse);
        }
      }
    }
    return pulses;
  }

  double[] traits(PulseHypothesis pulse) {
    double bpm = bpm(pulse);
    return LevelTraits.of(pulse, wide, background, bpm, tempoStrength(bpm));
  }

  /**
   * Levels by all that speaks for each in either phase, and at each of them the phase by what tells
   * beat from off-beat.
   *
   * @return for each pulse itself, then half way between its beats
   */
  List<Weighed> weigh(List<PulseHypothesis> levels) {
    List<PulseHypothesis> pulses = bothPhases(levels);
    double[] heardOdds =
        pulses.stream()
            .mapToDouble(pulse -> heard.map(ear -> ear.speaksFor(pulse.beatFrames())).orElse(0.0))
            .toArray();
    List<double[]> traits = pulses.stream().map(this::traits).toList();
    double[] probabilities = LevelChoice.probabilities(traits, heardOdds);
    List<Weighed> weighed = new ArrayList<>();
    for (int i = 0; i < probabilities.length; i += 2) {
      PulseHypothesis on = pulses.get(i);
      double level = probabilities[i] + probabilities[i + 1];
      double odds = LevelChoice.worth(traits.get(i)) - LevelChoice.worth(traits.get(i + 1));
      odds += heard.map(ear -> ear.speaksForPhase(on)).orElse(0.0);
      double share = 1 / (1 + Math.exp(-odds));
      weighed.add(new Weighed(on, bpm(on), level * share));
      PulseHypothesis off = pulses.get(i + 1);
      weighed.add(new Weighed(off, bpm(off), level * (1 - share)));
    }
    return weighed;
  }

  private static List<PulseHypothesis> bothPhases(List<PulseHypothesis> levels) {
    return levels.stream().flatMap(pulse -> Stream.of(pulse, pulse.offbeat())).toList();
  }

  List<PulseEvidence> evidence() {
    List<PulseEvidence> all = new ArrayList<>();
    for (PulseHypothesis pulse : bothPhases(levels())) {
      double[] seconds =
          Arrays.stream(pulse.beatFrames())
              .map(frame -> frame / activation.clock().framesPerSecond())
              .filter(at -> at >= 0)
              .toArray();
      BeatGrid beats = BeatGrid.of(seconds);
      double strokes = LevelChoice.worth(traits(pulse));
      all.add(
          heard
              .map(ear -> ear.evidence(beats, strokes, pulse))
              .orElse(new PulseEvidence(beats, strokes, 0, 0, 0, 0)));
    }
    return all;
  }

  /**
   * The chain at a level. It is drawn to beats and to what lies half way between them alike, so
   * that it gains nothing by slipping from the one to the other.
   */
  private PulseHypothesis pulse(double level) {
    TempoCurve at = curve.times(level);
    int[] beats = BeatChain.track(PhaseGain.folded(gain, at), at, from, to);
    return new PulseHypothesis(level, false, BeatPhase.settle(gain, fractional(beats)));
  }

  /**
   * The chain once more at another level and with other gains, along the pace it finds itself.
   *
   * @param extra read, added to the gain of each frame
   */
  PulseHypothesis pulse(double level, double[] extra) {
    return pulse(level, gain, extra);
  }

  /**
   * The chain once more in the phase of a pulse already found, which only the listener moves.
   *
   * @param said frames of beats that the listener placed
   * @param extra read, added to the gain of each frame
   */
  PulseHypothesis again(PulseHypothesis found, double[] said, double[] extra) {
    return pulse(found.level(), PhaseGain.near(gain, found.beatFrames(), said), extra);
  }

  private PulseHypothesis pulse(double level, double[] gain, double[] extra) {
    double[] sum = gain.clone();
    for (int i = 0; i < sum.length; i++) {
      sum[i] += extra[i];
    }
    double[] once = fractional(BeatChain.track(sum, curve.times(level), from, to));
    if (once.length < 4) {
      return new PulseHypothesis(level, false, once);
    }
    TempoCurve found = TempoCurve.along(once, activation.frames());
    return new PulseHypothesis(level, false, fractional(BeatChain.track(sum, found, from, to)));
  }

  private double bpm(PulseHypothesis pulse) {
    return 60 * activation.clock().framesPerSecond() / pulse.medianPeriodFrames();
  }

  /** Mean strength of a tempo, each moment's strongest tempo being 1. */
  private double tempoStrength(double bpm) {
    TempoEvidence tempo = activation.tempo();
    int bin = (int) Math.round(tempo.binAt(bpm));
    int low = Math.max(0, bin - 1);
    int high = Math.min(tempo.strengths().bins() - 1, bin + 1);
    double sum = 0;
    int columns = 0;
    for (int column = 0; column < strongest.length; column++) {
      if (strongest[column] > SILENT_TEMPO) {
        double here = 0;
        for (int b = low; b <= high; b++) {
          here = Math.max(here, tempo.strengths().at(column, b));
        }
        sum += here / strongest[column];
        columns++;
      }
    }
    return columns == 0 ? 0 : sum / columns;
  }

  private static float[] strongest(TempoEvidence tempo) {
    float[] strongest = new float[tempo.strengths().frames()];
    for (int column = 0; column < strongest.length; column++) {
      for (int b = 0; b < tempo.strengths().bins(); b++) {
        strongest[column] = Math.max(strongest[column], tempo.strengths().at(column, b));
      }
    }
    return strongest;
  }

  private static double[] fractional(int[] frames) {
    double[] fractional = new double[frames.length];
    for (int i = 0; i < frames.length; i++) {
      fractional[i] = frames[i];
    }
    return fractional;
  }
}
