package undersong.search;

/**
 * All that is searched of a song, as it lies in memory.
 *
 * @param seeds of its lines
 */
public record Searched(SongLines lines, Seeds seeds, TechniquePlaces techniques) {
  public static final Searched NOTHING =
      new Searched(SongLines.NONE, Seeds.of(SongLines.NONE), TechniquePlaces.NONE);
}
