package undersong.estimate.form;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.feature.FrameSeries;
import undersong.feature.Loudness;
import undersong.feature.StereoImage;
import undersong.reading.Bar;
import undersong.reading.Beats;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Meter;
import undersong.reading.Reading;
import undersong.reading.TimeSignature;
import undersong.reading.Tuning;
import undersong.time.BeatGrid;
import undersong.time.FrameClock;
import undersong.time.Span;

/** Features and bars of a made-up recording, two seconds a bar, each bar one triad at one level. */
public final class BarwiseSound {
  private static final double BAR_SECONDS = 2;
  private static final FrameClock AT_50 = new FrameClock(22050, 441);
  private static final FrameClock AT_25 = new FrameClock(22050, 882);
  private static final FrameClock AT_10 = new FrameClock(22050, 2205);

  private record Sound(int rootMidi, int thirdSemitones, float levelDb, int onsetsPerBar) {}

  private final List<Sound> bars = new ArrayList<>();

  public BarwiseSound bar(int rootMidi, int thirdSemitones, double levelDb, int onsetsPerBar) {
    bars.add(new Sound(rootMidi, thirdSemitones, (float) levelDb, onsetsPerBar));
    return this;
  }

  public double durationSeconds() {
    return bars.size() * BAR_SECONDS;
  }

  public Features features() {
    int frames25 = (int) (durationSeconds() * 25);
    float[] spectrum = new float[frames25 * 264];
    for (int frame = 0; frame < frames25; frame++) {
      Sound sound = bars.get((int) (AT_25.secondsAt(frame) / BAR_SECONDS));
      for (int semitones : new int[] {0, sound.thirdSemitones(), 7}) {
        spectrum[frame * 264 + 1 + 3 * (sound.rootMidi() + semitones - 21)] = 3;
      }
    }
    int frames10 = (int) (durationSeconds() * 10);
    float[] levels = new float[frames10 * 7];
    float[] sides = new float[frames10 * 7];
    float[] lufs = new float[frames10];
    for (int frame = 0; frame < frames10; frame++) {
      float level = bars.get((int) (AT_10.secondsAt(frame) / BAR_SECONDS)).levelDb();
      java.util.Arrays.fill(levels, frame * 7, frame * 7 + 7, level);
      java.util.Arrays.fill(sides, frame * 7, frame * 7 + 7, level - 10);
      lufs[frame] = level;
    }
    int frames50 = (int) (durationSeconds() * 50);
    float[] onsets = new float[frames50];
    for (int bar = 0; bar < bars.size(); bar++) {
      for (int k = 0; k < bars.get(bar).onsetsPerBar(); k++) {
        double at = BAR_SECONDS * (bar + (k + 0.25) / bars.get(bar).onsetsPerBar());
        onsets[AT_50.frameAt(at)] = 1;
      }
    }
    FrameSeries quiet = new FrameSeries(AT_10, new float[frames10]);
    FrameMatrix tonal = FrameMatrix.of(AT_25, 264, spectrum);
    return new Features(
        "made-up",
        durationSeconds(),
        new FrameSeries(AT_50, onsets),
        FrameMatrix.of(AT_50, 3, new float[frames50 * 3]),
        FrameMatrix.of(new FrameClock(22050, 11025), 96, new float[0]),
        tonal,
        tonal,
        new Loudness(new FrameSeries(AT_10, lufs), new FrameSeries(AT_10, lufs), -16, 6),
        FrameMatrix.of(AT_10, 7, levels),
        FrameMatrix.of(AT_10, 7, sides),
        quiet,
        quiet,
        quiet,
        StereoImage.NOTHING,
        Optional.empty());
  }

  /** A reading that holds tuning, beats and bars of this sound. */
  public Reading bars() {
    double[] beats = new double[bars.size() * 4 + 1];
    List<Bar> found = new ArrayList<>();
    for (int beat = 0; beat < beats.length; beat++) {
      beats[beat] = beat * BAR_SECONDS / 4;
    }
    for (int bar = 0; bar < bars.size(); bar++) {
      Span span = new Span(bar * BAR_SECONDS, (bar + 1) * BAR_SECONDS);
      found.add(new Bar(bar + 1, bar * 4, 4, TimeSignature.FOUR_FOUR, span));
    }
    return Reading.empty(durationSeconds())
        .with(Facet.TUNING, Derived.of(new Tuning(0, 1)))
        .with(Facet.BEATS, Derived.of(new Beats(BeatGrid.of(beats), 2, 1, 1, List.of())))
        .with(Facet.METER, Derived.of(new Meter(found, 1, List.of())));
  }
}
