package undersong.estimate.echo;

import java.util.Arrays;
import java.util.List;
import undersong.reading.NoteValue;
import undersong.reading.TimeSignature;
import undersong.time.BeatGrid;

/** Note values that delays are set to, and how long they last in a song. */
final class DelayLags {
  /** In whole notes. */
  private static final int[][] VALUES = {
    {1, 16}, {1, 12}, {1, 8}, {3, 16}, {1, 6}, {1, 4}, {3, 8}, {1, 3}, {1, 2}
  };

  private DelayLags() {}

  static List<NoteValue> values() {
    return Arrays.stream(VALUES).map(v -> new NoteValue(v[0], v[1])).toList();
  }

  /**
   * Whether bands repeat themselves at this distance: sixteenths, eighths, triplets and what they
   * add up to, but hardly ever three sixteenths.
   */
  static boolean bandsRepeat(NoteValue value) {
    return Math.abs(16 * value.wholeNotes() - 3) > 1e-6;
  }

  /**
   * Length of a note value at the song's usual tempo, 0 where there is none: mean of the middle
   * three fifths of the beats, since those before the first and after the last sound are guessed.
   */
  static double seconds(BeatGrid grid, TimeSignature signature, NoteValue value) {
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
