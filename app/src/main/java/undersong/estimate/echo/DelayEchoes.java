package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.DoubleStream;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.reading.Echo;
import undersong.reading.NoteEvent;
import undersong.reading.NoteValue;
import undersong.time.Span;

/** Makes an echo of a lag that holds: how loud its repeats are, and where they stand. */
final class DelayEchoes {
  private static final int MOST_REPEATS = 6;
  private static final double FAINT = 0.05;
  private static final int PARTIALS = 6;

  private final StereoPowers powers;

  DelayEchoes(StereoPowers powers) {
    this.powers = powers;
  }

  /** A lag that holds, and how sure that is. */
  record Delay(double lagSeconds, Optional<NoteValue> value, double probability) {}

  /**
   * @param sources notes that come back, and at which levels; none where they are not known
   * @param span from the first sound that is repeated to the end of its last copy
   */
  Echo echo(Delay delay, Map<NoteEvent, CopyLevels> sources, Span span) {
    List<Echo.Repeat> repeats = new ArrayList<>();
    double before = 1;
    for (int i = 1; i <= MOST_REPEATS && !sources.isEmpty(); i++) {
      double after = i * delay.lagSeconds;
      double gain = median(sources.values().stream().mapToDouble(s -> s.after(after)));
      if (gain < FAINT || gain > before) {
        break;
      }
      double place = median(sources.keySet().stream().mapToDouble(n -> place(n, after)));
      repeats.add(new Echo.Repeat(rounded(20 * Math.log10(gain)), rounded(place), 0));
      before = gain;
    }
    double source =
        sources.isEmpty() ? 0 : median(sources.keySet().stream().mapToDouble(n -> place(n, 0)));
    return new Echo(
        Echo.Kind.DELAY,
        span,
        rounded(delay.lagSeconds),
        0,
        0,
        delay.value,
        rounded(source),
        repeats,
        delay.probability);
  }

  private static double median(DoubleStream values) {
    double[] sorted = values.sorted().toArray();
    return sorted[sorted.length / 2];
  }

  /** Constant-power place of what the note's partials add some time after its onset. */
  private double place(NoteEvent note, double after) {
    double hertz = 440 * Math.pow(2, (note.midiPitch() - 69) / 12);
    int frame = StereoImage.CLOCK.frameAt(note.span().startSeconds() + after);
    double left = 0;
    double right = 0;
    for (int partial = 1;
        partial <= PARTIALS && frame >= 2 && frame + 1 < powers.frames();
        partial++) {
      int bin = StereoImage.binOf(partial * hertz);
      left += Math.max(0, powers.left(frame + 1, bin) - powers.left(frame - 2, bin));
      right += Math.max(0, powers.right(frame + 1, bin) - powers.right(frame - 2, bin));
    }
    return left + right > 0 ? StereoPowers.place(left, right) : 0;
  }

  private static double rounded(double value) {
    return Math.round(1e4 * value) / 1e4;
  }
}
