package undersong.shelf;

import java.nio.file.Path;

/**
 * What is known of a recording when it is put on the shelf.
 *
 * @param contentHash of its sound: the same hash is the same song, wherever the file lies
 * @param said words of the listener; where empty, what was said earlier stays
 */
public record StudiedFile(
    String contentHash, Path path, double durationSeconds, Song.Words tagged, Song.Words said) {}
