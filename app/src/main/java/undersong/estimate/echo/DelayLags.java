package undersong.estimate.echo;

import java.util.Arrays;
import java.util.Comparator;
import java.util.Optional;
import undersong.reading.NoteValue;
import undersong.reading.TimeSignature;
import undersong.time.BeatGrid;

/** Note values that delays are set to, and how long they last in a song. */
final class DelayLags {
  /** In whole notes. */
  private static final int[][] VALUES = {
    {1, 16}, {1, 12}, {1, 8}, {3, 16}, {1, 6}, {1, 4}, {3, 8}, {1, 3}, {1, 2}
  };

  private static final double SAME_VALUE = 0.03;

  private DelayLags() {}

  /** The note value that lasts as long, to 3 %. */
  static Optional<NoteValue> value(double lagSeconds, BeatGrid grid, TimeSignature signature) {
    return Arrays.stream(VALUES)
        .map(v -> new NoteValue(v[0], v[1]))
        .filter(v -> off(lagSeconds, seconds(grid, signature, v)) < SAME_VALUE)
        .min(Comparator.comparingDouble(v -> off(lagSeconds, seconds(grid, signature, v))));
  }

  private static double off(double lagSeconds, double valueSeconds) {
    return valueSeconds > 0 ? Math.abs(lagSeconds / valueSeconds - 1) : 1;
  }

  /**
   * Length of a note value at the song's usual tempo, 0 where there is none: mean of the middle
   * three fifths of the beats, since those before the first and after the last sound are guessed.
   */
  private static double seconds(BeatGrid grid, TimeSignature signature, NoteValue value) {
    double beats = value.wholeNotes() / (signature.compound() ? 3.0 / 8 : 1.0 / 4);
    double[] lengths = new double[Math.max(0, grid.size() - 1)];
    for (int i = 0; i < lengths.length; i++) {
      lengths[i] = grid.secondsAt(i + 1) - grid.secondsAt(i);
    }
    Arrays.sort(lengths);
    int cut = lengths.length / 5;
    return beats * Arrays.stream(lengths, cut, lengths.length - cut).average().orElse(0);
  }
}
