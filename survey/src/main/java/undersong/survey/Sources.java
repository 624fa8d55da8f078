package undersong.survey;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Stream;
import undersong.work.Trouble;

/** Where the recordings of a survey are named: a folder, or a list of them. */
final class Sources {
  private static final Set<String> SOUND =
      Set.of(
          "wav", "aif", "aiff", "flac", "mp3", "m4a", "aac", "ogg", "oga", "opus", "mp4", "mkv",
          "webm", "mov");

  private Sources() {}

  /**
   * Recordings in a folder and the folders below it, known by the ends of their names; or those a
   * text file lists, one a line: {@code PLACE}, and where it is known, behind tabs, year, artist
   * and title. Lines that begin with # are remarks; relative paths start at the list. Throws {@link
   * Trouble.WrongUsage} where there is no such place, or nothing in it.
   */
  static List<Source> in(Path place) {
    try {
      List<Source> found = Files.isDirectory(place) ? folder(place) : list(place);
      if (found.isEmpty()) {
        throw new Trouble.WrongUsage(
            "%s names no recording; it must be a folder that holds some, or a text file with one path or address a line."
                .formatted(place));
      }
      return found;
    } catch (IOException refused) {
      throw new Trouble.WrongUsage(
          "%s must be a folder of recordings or a text file that lists them, and cannot be read: %s"
              .formatted(place, refused));
    }
  }

  private static List<Source> folder(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return files
          .filter(Files::isRegularFile)
          .filter(file -> SOUND.contains(ending(file)))
          .map(file -> Source.of(file.toAbsolutePath().normalize().toString()))
          .sorted(java.util.Comparator.comparing(Source::place))
          .toList();
    }
  }

  private static String ending(Path file) {
    String name = file.getFileName().toString();
    return name.substring(name.lastIndexOf('.') + 1).toLowerCase(Locale.ROOT);
  }

  private static List<Source> list(Path list) throws IOException {
    List<Source> sources = new ArrayList<>();
    int number = 0;
    for (String line : Files.readAllLines(list)) {
      number++;
      if (!line.isBlank() && !line.startsWith("#")) {
        sources.add(listed(list, line, number));
      }
    }
    return sources;
  }

  private static Source listed(Path list, String line, int number) {
    String[] cells = line.split("\t", -1);
    String year = cell(cells, 1);
    if (!year.isEmpty() && !year.matches("\\d{4}")) {
      throw new Trouble.WrongUsage(
          "Line %d of %s says the year \"%s\"; behind the first tab must stand four digits or nothing."
              .formatted(number, list, year));
    }
    return new Source(
        place(list, cells[0].strip()),
        year.isEmpty() ? 0 : Integer.parseInt(year),
        cell(cells, 2),
        cell(cells, 3));
  }

  private static String place(Path list, String text) {
    if (isAddress(text)) {
      return text;
    }
    return list.toAbsolutePath().resolveSibling(text).normalize().toString();
  }

  /** Two letters at least, so that the drive of a path is none. */
  static boolean isAddress(String place) {
    return place.matches("[A-Za-z][A-Za-z0-9+.-]+:.*");
  }

  private static String cell(String[] cells, int column) {
    return column < cells.length ? cells[column].strip() : "";
  }
}
