package undersong.shelf;

import java.nio.file.Path;
import java.time.Instant;
import java.util.Optional;

/**
 * One song on the shelf.
 *
 * @param id number by which it is called
 * @param contentHash of its sound
 * @param path where the file was when it was last studied
 * @param tagged what the file says of itself
 * @param said what the listener said instead
 * @param source who wrote a chart and under which licence; "" for others
 */
public record Song(
    long id,
    String contentHash,
    Path path,
    double durationSeconds,
    Words tagged,
    Words said,
    Instant studiedAt,
    Origin origin,
    String source) {

  /** Title, artist and year, each where it is known. */
  public record Words(Optional<String> title, Optional<String> artist, Optional<Integer> year) {
    public static final Words NONE =
        new Words(Optional.empty(), Optional.empty(), Optional.empty());

    public Words {
      title = title.map(String::strip).filter(text -> !text.isEmpty());
      artist = artist.map(String::strip).filter(text -> !text.isEmpty());
      year = year.filter(number -> number != 0);
    }

    /** From a file's tags: empty texts and year 0 mean that nothing is known. */
    public static Words ofTags(String title, String artist, int year) {
      return new Words(Optional.of(title), Optional.of(artist), Optional.of(year));
    }
  }

  /** What was said, else the tag, else the name of the file. */
  public String title() {
    return said.title().or(tagged::title).orElseGet(this::fileTitle);
  }

  public Optional<String> artist() {
    return said.artist().or(tagged::artist);
  }

  public Optional<Integer> year() {
    return said.year().or(tagged::year);
  }

  private String fileTitle() {
    String name = String.valueOf(path.getFileName());
    int dot = name.lastIndexOf('.');
    return dot > 0 ? name.substring(0, dot) : name;
  }
}
