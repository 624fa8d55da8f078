package undersong.technique;

import java.util.EnumMap;
import java.util.Map;

/**
 * How common each technique is: its share of songs, as a table says and as the shelf has shown so
 * far. The table weighs as much as {@value #TABLE_SONGS} songs of the shelf.
 */
public final class Commonness {
  private static final double TABLE_SONGS = 20;
  private static final TableFile TABLE = new TableFile("/undersong/technique/commonness.txt");

  /** A technique the table does not know. */
  private static final double UNKNOWN = 0.25;

  private final Map<Technique, Double> table;
  private final Map<Technique, Integer> songsWith;
  private final int songs;

  private Commonness(Map<Technique, Double> table, Map<Technique, Integer> songsWith, int songs) {
    this.table = table;
    this.songsWith = songsWith;
    this.songs = songs;
  }

  /** The table the program comes with, and no shelf. */
  public static Commonness standard() {
    Map<Technique, Double> table = new EnumMap<>(Technique.class);
    for (String line : TABLE.lines()) {
      String[] words = line.split("\\s+", -1);
      table.put(Technique.named(words[0]), Double.valueOf(words[1]));
    }
    return new Commonness(table, Map.of(), 0);
  }

  /**
   * With what a shelf has shown.
   *
   * @param shelfSongs songs whose findings are known
   * @param shelfSongsWith how many of them have each technique
   */
  public Commonness withShelf(int shelfSongs, Map<Technique, Integer> shelfSongsWith) {
    return new Commonness(table, Map.copyOf(shelfSongsWith), shelfSongs);
  }

  /** Share of songs that have the technique, above 0 and below 1. */
  public double share(Technique technique) {
    double prior = table.getOrDefault(technique, UNKNOWN);
    double heard = songsWith.getOrDefault(technique, 0);
    return (TABLE_SONGS * prior + heard) / (TABLE_SONGS + songs);
  }

  public int shelfSongs() {
    return songs;
  }

  public int shelfSongsWith(Technique technique) {
    return songsWith.getOrDefault(technique, 0);
  }
}
