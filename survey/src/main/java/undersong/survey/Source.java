package undersong.survey;

import java.io.Serializable;
import undersong.shelf.Song;

/**
 * One recording to study.
 *
 * @param place a path, or the address of an object that Spark's file systems can open
 * @param year in the words of whoever made the list; 0 where nothing is said
 * @param artist "" where nothing is said
 * @param title "" where nothing is said
 */
record Source(String place, int year, String artist, String title) implements Serializable {
  private static final long serialVersionUID = 1;

  static Source of(String place) {
    return new Source(place, 0, "", "");
  }

  Song.Words words() {
    return Song.Words.ofTags(title, artist, year);
  }
}
