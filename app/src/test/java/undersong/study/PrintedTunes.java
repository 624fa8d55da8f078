package undersong.study;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * Plain tunes of a folder in ABC notation (abcnotation.com, standard 2.1): one line of notes in one
 * key: repeats once, both endings after one another. Tunes with several keys, tuplets, chords of
 * notes, grace notes or broken rhythm are passed over.
 */
final class PrintedTunes {
  private static final Pattern NOTE =
      Pattern.compile("([_=^]*)([A-Ga-gz])([,']*)(\\d*)(/*)(\\d*)|(\\|)|(-)");

  /** Sharps of the major keys that occur, flats below zero: circle of fifths. */
  private static final Map<String, Integer> FIFTHS =
      Map.of("C", 0, "G", 1, "D", 2, "A", 3, "E", 4, "B", 5, "F", -1, "Bb", -2, "Eb", -3, "Ab", -4);

  private static final String SHARPS = "FCGDAEB";
  private static final Map<Character, Integer> SEMITONES =
      Map.of('C', 0, 'D', 2, 'E', 4, 'F', 5, 'G', 7, 'A', 9, 'B', 11);

  private PrintedTunes() {}

  /**
   * @param startBeat in the beats of the meter, dotted quarters in 6/8 and 9/8
   */
  record PrintedNote(int midi, double startBeat, double beats) {}

  record PrintedTune(
      String keyName, int tonicPitchClass, List<PrintedNote> notes, int transposedBy) {
    int midi(int place) {
      return notes.get(place).midi();
    }

    double beatsBetween(int place) {
      double beats = notes.get(place + 1).startBeat() - notes.get(place).startBeat();
      return Math.round(4 * beats) / 4.0;
    }

    /** The same tune higher, its key with it. */
    PrintedTune up(int semitones) {
      int tonic = (tonicPitchClass + semitones) % 12;
      String mode = keyName.replaceAll("^\\S+ ", "");
      return new PrintedTune(
          List.of("C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B").get(tonic)
              + " "
              + mode,
          tonic,
          notes.stream()
              .map(n -> new PrintedNote(n.midi() + semitones, n.startBeat(), n.beats()))
              .toList(),
          semitones);
    }
  }

  static List<PrintedTune> read(Path folder) throws IOException {
    List<PrintedTune> tunes = new ArrayList<>();
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file : files.filter(f -> f.toString().endsWith(".abc")).sorted().toList()) {
        for (String tune : Files.readString(file, StandardCharsets.UTF_8).split("(?m)^X:", -1)) {
          read(tune).ifPresent(tunes::add);
        }
      }
    }
    return tunes;
  }

  private static Optional<PrintedTune> read(String abc) {
    List<String> keys = fields(abc, 'K');
    List<String> meters = fields(abc, 'M');
    String body =
        abc.lines()
            .filter(line -> !line.matches("([A-Za-z]:|%| *\\d+ *$).*"))
            .map(line -> line.replaceAll("%.*", "").replaceAll("\"[^\"]*\"", ""))
            .map(line -> line.replaceAll("[\\[|][12]", "|")) // first and second endings
            .reduce("", (all, line) -> all + " " + line);
    if (keys.size() != 1 || meters.isEmpty() || body.matches(".*[(\\[{}<>\\]~].*")) {
      return Optional.empty();
    }
    boolean minor = keys.get(0).endsWith("m");
    String tonic = minor ? keys.get(0).substring(0, keys.get(0).length() - 1) : keys.get(0);
    String meter = meters.get(meters.size() - 1);
    String[] parts = meter.split("/", -1);
    double quarters = 4.0 * Integer.parseInt(parts[0]) / Integer.parseInt(parts[1]);
    List<String> units = fields(abc, 'L');
    double unit =
        units.isEmpty()
            ? quarters / 4 < 0.75 ? 0.25 : 0.5
            : 4.0 / Integer.parseInt(units.get(0).split("/", -1)[1]);
    double beat = parts[1].equals("8") ? 1.5 : 1;
    int tonicPitch = pitchClass(tonic);
    int fifths = FIFTHS.getOrDefault(relativeMajor(tonicPitch, minor), 0);
    List<PrintedNote> notes = notes(body, unit / beat, fifths);
    return notes.size() < 24
        ? Optional.empty()
        : Optional.of(new PrintedTune(tonic + (minor ? " minor" : " major"), tonicPitch, notes, 0));
  }

  private static List<String> fields(String abc, char name) {
    return abc.lines()
        .filter(line -> line.startsWith(name + ":"))
        .map(line -> line.substring(2).strip())
        .toList();
  }

  private static String relativeMajor(int tonic, boolean minor) {
    int major = (tonic + (minor ? 3 : 0)) % 12;
    return FIFTHS.keySet().stream()
        .filter(name -> pitchClass(name) == major)
        .findFirst()
        .orElseThrow();
  }

  private static int pitchClass(String name) {
    return Math.floorMod(SEMITONES.get(name.charAt(0)) - (name.endsWith("b") ? 1 : 0), 12);
  }

  private static List<PrintedNote> notes(String body, double unitBeats, int fifths) {
    List<PrintedNote> notes = new ArrayList<>();
    Map<String, Integer> signs = new HashMap<>();
    double at = 0;
    boolean tied = false;
    Matcher found = NOTE.matcher(body);
    while (found.find()) {
      if (found.group(7) != null) {
        signs.clear();
        continue;
      }
      if (found.group(8) != null) {
        tied = true;
        continue;
      }
      double beats = unitBeats * length(found);
      if (tied) {
        PrintedNote held = notes.remove(notes.size() - 1);
        notes.add(new PrintedNote(held.midi(), held.startBeat(), held.beats() + beats));
      } else if (!found.group(2).equals("z")) {
        notes.add(new PrintedNote(midi(found, fifths, signs), at, beats));
      }
      tied = false;
      at += beats;
    }
    return notes;
  }

  private static double length(Matcher note) {
    double length = note.group(4).isEmpty() ? 1 : Integer.parseInt(note.group(4));
    if (!note.group(6).isEmpty()) {
      return length / Integer.parseInt(note.group(6));
    }
    return length / Math.pow(2, note.group(5).length());
  }

  private static int midi(Matcher note, int fifths, Map<String, Integer> signs) {
    char letter = Character.toUpperCase(note.group(2).charAt(0));
    int octave = Character.isUpperCase(note.group(2).charAt(0)) ? 60 : 72;
    for (char mark : note.group(3).toCharArray()) {
      octave += mark == ',' ? -12 : 12;
    }
    String name = note.group(2) + note.group(3);
    if (!note.group(1).isEmpty()) {
      int sign = 0;
      for (char mark : note.group(1).toCharArray()) {
        sign += mark == '^' ? 1 : mark == '_' ? -1 : 0;
      }
      signs.put(name, sign);
    }
    int bySignature =
        fifths > SHARPS.indexOf(letter) ? 1 : -fifths > 6 - SHARPS.indexOf(letter) ? -1 : 0;
    return octave + SEMITONES.get(letter) + signs.getOrDefault(name, bySignature);
  }
}
