package undersong.exchange;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/**
 * Reads the chart collections that lie in a folder of open data.
 *
 * @param songs read, in order of their ids
 * @param refused one line for each file that could not be read: which and why
 */
public record PaperSongs(List<PaperSong> songs, List<String> refused) {
  private static final String BILLBOARD = "mcgill-billboard/annotations";
  private static final String ROCK = "rock-corpus-rs200/rs200_harmony_exp";
  private static final String ROCK_TITLES = "rock-corpus-rs200/rs200_harmony";

  public PaperSongs {
    songs = List.copyOf(songs);
    refused = List.copyOf(refused);
  }

  /** One reader of one format. */
  private interface Reader {
    PaperSong read(Path file) throws IOException;
  }

  /**
   * McGill Billboard and RS200 (the first author's analyses), whichever is there; throws where
   * neither is.
   *
   * @param folder that holds the data sets' folders
   */
  public static PaperSongs in(Path folder) throws IOException {
    List<PaperSong> songs = new ArrayList<>();
    List<String> refused = new ArrayList<>();
    boolean any = false;
    if (Files.isDirectory(folder.resolve(BILLBOARD))) {
      any = true;
      for (Path file : files(folder.resolve(BILLBOARD), ".txt")) {
        add(file, BillboardChart::read, songs, refused);
      }
    }
    if (Files.isDirectory(folder.resolve(ROCK))) {
      any = true;
      for (Path file : files(folder.resolve(ROCK), "_dt.txt")) {
        Path titled = folder.resolve(ROCK_TITLES).resolve(fileWith(file, ".har"));
        add(file, one -> RockChart.read(one, titled), songs, refused);
      }
    }
    if (!any) {
      throw new IOException(
          "%s holds neither %s nor %s; name the folder in which the data sets' folders lie."
              .formatted(folder, BILLBOARD, ROCK));
    }
    return new PaperSongs(songs, refused);
  }

  private static void add(Path file, Reader reader, List<PaperSong> songs, List<String> refused) {
    try {
      songs.add(reader.read(file));
    } catch (IOException | IllegalArgumentException cause) {
      refused.add(file.getFileName() + ": " + cause.getMessage());
    }
  }

  private static String fileWith(Path file, String ending) {
    return file.getFileName().toString().replaceFirst("\\.txt$", ending);
  }

  private static List<Path> files(Path folder, String ending) throws IOException {
    try (Stream<Path> entries = Files.list(folder)) {
      return entries.filter(file -> file.toString().endsWith(ending)).sorted().toList();
    }
  }
}
