package undersong.bench.data;

import java.util.List;
import undersong.bench.metrics.KeyLabel;

/**
 * A chart together with the Roman numerals it was written in, so that what the annotator said can
 * be compared with what is made of the chords.
 *
 * @param goesRound whether the annotator wrote a part of two to eight chords once, to be played
 *     three times or more in a row
 */
public record NumeralSong(Chart chart, List<Numeral> numerals, boolean goesRound) {
  public NumeralSong {
    numerals = List.copyOf(numerals);
  }

  /**
   * One numeral as written.
   *
   * @param startBeat tapped beats from the first bar line
   * @param endBeat where the next begins
   * @param key it is read in
   */
  public record Numeral(double startBeat, double endBeat, String text, KeyLabel key) {}
}
