package undersong.bench.data;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import undersong.bench.metrics.ChordCode;
import undersong.bench.metrics.HarteChord;
import undersong.bench.metrics.KeyLabel;

/**
 * Dance tunes of the Nottingham collection: the tune with its chords, each part once, with its last
 * ending, and all of it twice. A tune that begins with an upbeat begins with the bar behind it. Its
 * key is the one written; the mode is told no further than the third. Tunes whose bars do not come
 * out even, or that hold more than notes, chords, bars and endings, are refused.
 *
 * <p>Source: E. Foxley's Nottingham Music Database, in ABC notation (standard 1.6); ids are file
 * and {@code X:} number.
 */
public final class FolkTuneReader {
  private static final Pattern TOKEN =
      Pattern.compile(
          "\"([^\"]*)\"|(\\[[12])|(:?\\|[|\\]:]?|::|:\\|)|\\(3"
              + "|([=^_]*)([A-Ga-gz])([,']*)(\\d*)(/*)(\\d*)|(\\s+|-|\\\\)|(.)");
  private static final Pattern CHORD = Pattern.compile("([A-G][#b]?)(m7|m6|m|7|6|d|a)?(/.*)?");
  private static final int FEWEST_BARS = 8;
  private static final String SCALE = "C D EF G A B";

  private final List<Chart.Note> notes = new ArrayList<>();
  private final List<Chart.Bar> bars = new ArrayList<>();
  private final List<Chart.Change> changes = new ArrayList<>();
  private final String id;
  private KeyLabel key = KeyLabel.major(0);
  private int fifths;
  private int beats = 4;
  private boolean compound;
  private double unit = 0.5;
  private final int[] altered = new int[128];
  private ChordCode chord = ChordCode.NONE;
  private double barStart;
  private double at;
  private int triplet;
  private boolean skipping;
  private char letter = 'A';
  private boolean opens = true;
  private boolean partEnds;

  private FolkTuneReader(String id) {
    this.id = id;
  }

  /** All tunes that can be read, file by file. */
  public static Harvest<Chart> readAll(Path folder) throws IOException {
    List<Chart> read = new ArrayList<>();
    List<String> refused = new ArrayList<>();
    for (Path file : Harvest.list(folder)) {
      String name = file.getFileName().toString();
      if (name.endsWith(".abc")) {
        for (String tune : Files.readString(file).split("(?m)^(?=X:)")) {
          if (tune.startsWith("X:")) {
            String number = tune.substring(2, tune.indexOf('\n')).strip();
            String id = "nottingham-%s-%s".formatted(name.replace(".abc", ""), number);
            try {
              read.add(read(id, tune.lines().toList()));
            } catch (Harvest.Unreadable e) {
              refused.add(id + ": " + e.getMessage());
            }
          }
        }
      }
    }
    return new Harvest<>(List.copyOf(read), List.copyOf(refused));
  }

  static Chart read(String id, List<String> lines) {
    FolkTuneReader reader = new FolkTuneReader(id);
    for (String line : lines) {
      if (line.matches("[A-Za-z]:.*")) {
        reader.field(line.charAt(0), line.substring(2).strip());
      } else if (!line.startsWith("%")) {
        reader.music(line);
      }
    }
    return reader.twice();
  }

  private void field(char name, String value) {
    if (name == 'M') {
      String[] sides = value.split("/");
      int upper = Integer.parseInt(sides[0]);
      compound = sides[1].equals("8") && upper % 3 == 0;
      if (!compound && !sides[1].equals("4")) {
        throw new Harvest.Unreadable("meter %s has no stated beat".formatted(value));
      }
      beats = compound ? upper / 3 : upper;
      double eighths = compound ? 1 / 3.0 : 0.5;
      // An eighth is the unit, or a sixteenth in meters shorter than three quarters.
      unit = (double) upper / Integer.parseInt(sides[1]) < 0.75 ? eighths / 2 : eighths;
    } else if (name == 'L') {
      int part = Integer.parseInt(value.substring(value.indexOf('/') + 1));
      unit = (compound ? 8 / 3.0 : 4) / part;
    } else if (name == 'K') {
      if (!bars.isEmpty()) {
        throw new Harvest.Unreadable("changes its key");
      }
      boolean minor = value.endsWith("m");
      int tonic = HarteChord.pitchClass(minor ? value.substring(0, value.length() - 1) : value);
      key = minor ? KeyLabel.minor(tonic) : KeyLabel.major(tonic);
      int major = minor ? (tonic + 3) % 12 : tonic;
      fifths = Math.floorMod(7 * major + 5, 12) - 5;
      signature();
    } else if (name == 'P' && !bars.isEmpty()) {
      nextPart();
    }
  }

  /** A part that ends within a bar ends with it: what is left of the bar is the next upbeat. */
  private void nextPart() {
    skipping = false;
    partEnds = at > barStart + 1e-6;
    if (!partEnds && !opens) {
      letter++;
      opens = true;
    }
  }

  /** Sets every octave's letters to what the signature says. */
  private void signature() {
    Arrays.fill(altered, 0);
    for (int i = 0; i < Math.abs(fifths); i++) {
      int natural = fifths > 0 ? Math.floorMod(5 + 7 * i, 12) : Math.floorMod(11 - 7 * i, 12);
      for (int pitch = natural; pitch < altered.length; pitch += 12) {
        altered[pitch] = Integer.signum(fifths);
      }
    }
  }

  private void music(String line) {
    Matcher token = TOKEN.matcher(line);
    while (token.find()) {
      if (token.group(1) != null) {
        if (!skipping) {
          chord = chord(token.group(1));
          change();
        }
      } else if (token.group(2) != null) {
        bar();
        skipping = token.group(2).endsWith("1");
      } else if (token.group(3) != null) {
        bar();
        boolean ends = token.group(3).matches(":.*|\\|\\|");
        if (ends && skipping) {
          skipping = false;
        } else if (ends && at > 0) {
          nextPart();
        }
      } else if (token.group().equals("(3")) {
        triplet = 3;
      } else if (token.group(5) != null) {
        note(token);
      } else if (token.group(11) != null) {
        throw new Harvest.Unreadable("holds \"%s\"".formatted(token.group(11)));
      }
    }
  }

  private void change() {
    if (!changes.isEmpty() && changes.get(changes.size() - 1).beat() > at - barStart - 1e-6) {
      changes.remove(changes.size() - 1);
    }
    changes.add(new Chart.Change(at - barStart, chord));
  }

  private void note(Matcher token) {
    if (skipping) {
      return;
    }
    double length = unit * (token.group(7).isEmpty() ? 1 : Integer.parseInt(token.group(7)));
    if (!token.group(8).isEmpty()) {
      length /=
          token.group(9).isEmpty()
              ? 1 << token.group(8).length()
              : Integer.parseInt(token.group(9));
    }
    if (triplet > 0) {
      triplet--;
      length *= 2 / 3.0;
    }
    char name = token.group(5).charAt(0);
    if (name != 'z') {
      int pitch = SCALE.indexOf(Character.toUpperCase(name)) + (name >= 'a' ? 72 : 60);
      for (char mark : token.group(6).toCharArray()) {
        pitch += mark == ',' ? -12 : 12;
      }
      if (!token.group(4).isEmpty()) {
        altered[pitch] = token.group(4).chars().map(c -> c == '^' ? 1 : c == '_' ? -1 : 0).sum();
      }
      notes.add(new Chart.Note(at, at + 0.92 * length, pitch + altered[pitch]));
    }
    at += length;
  }

  /** Closes a bar; what is too short is an upbeat at the start, or half of a bar that goes on. */
  private void bar() {
    double length = at - barStart;
    if (skipping || length < 1e-6 || (length < beats - 1e-6 && !bars.isEmpty())) {
      return;
    }
    if (Math.abs(length - beats) < 1e-6) {
      if (changes.isEmpty() || changes.get(0).beat() > 1e-6) {
        changes.add(0, new Chart.Change(0, bars.isEmpty() ? chord : lastChord()));
      }
      bars.add(
          new Chart.Bar(beats, compound, key, changes, String.valueOf(letter), "verse", opens));
      opens = false;
      barStart = at;
      if (partEnds) {
        nextPart();
      }
    } else if (length < beats) {
      notes.clear();
      at = 0;
    } else {
      throw new Harvest.Unreadable("bar %d does not come out even".formatted(bars.size() + 1));
    }
    changes.clear();
    signature();
  }

  private ChordCode lastChord() {
    List<Chart.Change> last = bars.get(bars.size() - 1).changes();
    return last.get(last.size() - 1).chord();
  }

  private static ChordCode chord(String symbol) {
    Matcher parts = CHORD.matcher(symbol);
    if (!parts.matches()) {
      throw new Harvest.Unreadable("holds the chord \"%s\"".formatted(symbol));
    }
    String kind =
        switch (Optional.ofNullable(parts.group(2)).orElse("")) {
          case "" -> "maj";
          case "m" -> "min";
          case "m7" -> "min7";
          case "m6" -> "min6";
          case "6" -> "maj6";
          case "d" -> "dim";
          case "a" -> "aug";
          default -> "7";
        };
    return HarteChord.parse(parts.group(1) + ":" + kind);
  }

  private Chart twice() {
    if (at - barStart > beats / 2.0 - 1e-6) {
      at = barStart + beats; // the last bar lacks what the upbeat had
      bar();
    }
    if (bars.size() < FEWEST_BARS) {
      throw new Harvest.Unreadable("has %d whole bars".formatted(bars.size()));
    }
    List<Chart.Bar> all = new ArrayList<>(bars);
    all.addAll(bars);
    List<Chart.Note> tune = new ArrayList<>(notes);
    tune.removeIf(n -> n.startBeat() > barStart - 1e-6);
    List.copyOf(tune)
        .forEach(
            n ->
                tune.add(
                    new Chart.Note(
                        n.startBeat() + barStart, n.endBeat() + barStart, n.midiPitch())));
    return new Chart(id, all, Pop909Reader.monophonic(tune), List.of());
  }
}
