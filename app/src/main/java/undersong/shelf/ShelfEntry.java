package undersong.shelf;

/**
 * One line of the shelf's list.
 *
 * @param tempoBpm 0 where there is no pulse
 * @param meter such as 4/4; empty where there is no pulse
 * @param key the main key in words; empty where nothing tonal sounds
 */
public record ShelfEntry(Song song, double tempoBpm, String meter, String key) {}
