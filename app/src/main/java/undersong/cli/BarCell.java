package undersong.cli;

import java.util.Arrays;
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

  /** Whether every token finds room in so many columns. */
  boolean fitsIn(int columns) {
    return lines(columns).stream().allMatch(line -> line.length() <= columns);
  }

  /**
   * Chords, numerals, bass; each token where it sounds if there is room, else as near as it goes. A
   * line that needs more columns takes more.
   */
  List<String> lines(int columns) {
    int[] places =
        places(
            chords.stream().mapToInt(token -> column(token.share(), columns)).toArray(),
            chords.stream()
                .mapToInt(token -> Math.max(token.chord().length(), token.numeral().length()))
                .toArray(),
            columns);
    int[] bassPlaces =
        places(
            bass.stream().mapToInt(token -> bassColumn(token, places, columns)).toArray(),
            bass.stream().mapToInt(token -> token.syllable().length()).toArray(),
            columns);
    return List.of(
        line(places, chords.stream().map(ChordToken::chord).toList()),
        line(places, chords.stream().map(ChordToken::numeral).toList()),
        line(bassPlaces, bass.stream().map(BassToken::syllable).toList()));
  }

  private static int column(double share, int columns) {
    return (int) Math.round(share * columns);
  }

  /** Under the chord it begins with, if it does. */
  private int bassColumn(BassToken token, int[] chordPlaces, int columns) {
    for (int i = 0; i < chordPlaces.length; i++) {
      if (Math.abs(chords.get(i).share() - token.share()) < 0.02) {
        return chordPlaces[i];
      }
    }
    return column(token.share(), columns);
  }

  /** Columns where tokens begin: first from left to right, then pushed back in from the right. */
  private static int[] places(int[] wanted, int[] widths, int columns) {
    int[] places = new int[wanted.length];
    int free = 0;
    for (int i = 0; i < places.length; i++) {
      places[i] = Math.max(free, wanted[i]);
      free = places[i] + widths[i] + 1;
    }
    int end = columns;
    int taken = Arrays.stream(widths).map(width -> width + 1).sum() - 1;
    for (int i = places.length - 1; i >= 0 && taken <= columns; i--) {
      places[i] = Math.min(places[i], end - widths[i]);
      end = places[i] - 1;
    }
    return places;
  }

  private static String line(int[] places, List<String> texts) {
    StringBuilder line = new StringBuilder();
    for (int i = 0; i < places.length; i++) {
      line.append(" ".repeat(Math.max(0, places[i] - line.length()))).append(texts.get(i));
    }
    return line.toString().stripTrailing();
  }
}
