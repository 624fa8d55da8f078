package undersong.exchange;

/**
 * A published chart of a song.
 *
 * @param id data set and number, such as {@code billboard-0010}
 * @param artist "" where the chart names none
 * @param source who wrote it and under which licence
 */
public record PaperSong(String id, String title, String artist, String source, ChordChart chart) {}
