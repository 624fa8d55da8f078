package undersong.shelf;

/**
 * A question worth asking again. Each speaker has their own under a name.
 *
 * @param author who saved it
 */
public record SavedSearch(String name, String author, String question) {}
