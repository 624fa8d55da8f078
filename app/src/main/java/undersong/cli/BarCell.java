package undersong.cli;

import java.util.ArrayList;
import java.util.List;

/**
 * One bar on the page: up to three lines of tokens, each token at the place in the bar where it
 * sounds.
 *
 * @param number of the bar
 * @param chords a chord over its numeral, in order
 * @param bass syllables, in order
 */
record BarCell(int number, List<ChordToken> chords, List<BassToken> bass) {
  BarCell {
    chords = List.copyOf(chords);
    bass = List.copyOf(bass);
  }

  /**
   * @param share of the bar that has passed, 0 to 1
   */
  record ChordToken(double share, String chord, String numeral) {}

  /**
   * @param share of the bar that has passed, 0 to 1
   */
  record BassToken(double share, String syllable) {}

  /** Columns the bar takes at least, if its tokens spread over so many. */
  int widthIn(int columns) {
    int width = 0;
    for (String line : lines(columns)) {
      width = Math.max(width, line.length());
    }
    return width;
  }

  /** Chords, numerals, bass; none longer than it must be. */
  List<String> lines(int columns) {
    StringBuilder chordLine = new StringBuilder();
    StringBuilder numeralLine = new StringBuilder();
    for (ChordToken token : chords) {
      int column =
          Math.max((int) Math.round(token.share() * columns), next(chordLine, numeralLine));
      put(chordLine, column, token.chord());
      put(numeralLine, column, token.numeral());
    }
    StringBuilder bassLine = new StringBuilder();
    for (BassToken token : bass) {
      put(
          bassLine,
          Math.max((int) Math.round(token.share() * columns), next(bassLine, bassLine)),
          token.syllable());
    }
    List<String> lines = new ArrayList<>();
    lines.add(chordLine.toString().stripTrailing());
    lines.add(numeralLine.toString().stripTrailing());
    lines.add(bassLine.toString());
    return lines;
  }

  private static int next(StringBuilder line, StringBuilder other) {
    int end = Math.max(line.length(), other.length());
    return end == 0 ? 0 : end + 1;
  }

  private static void put(StringBuilder line, int column, String text) {
    line.append(" ".repeat(Math.max(0, column - line.length()))).append(text);
  }
}
