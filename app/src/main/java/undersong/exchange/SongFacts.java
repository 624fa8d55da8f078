package undersong.exchange;

/**
 * What is known of a song besides its sound; a blank says that it is not known.
 *
 * @param year of release, as text
 * @param contentHash of the demuxed audio
 */
public record SongFacts(String title, String artist, String year, String contentHash) {
  public static final SongFacts UNKNOWN = new SongFacts("", "", "", "");

  public SongFacts {
    if (title == null || artist == null || year == null || contentHash == null) {
      throw new IllegalArgumentException("Song facts that are not known must be blank, not null.");
    }
  }
}
