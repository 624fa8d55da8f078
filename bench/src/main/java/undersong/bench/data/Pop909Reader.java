package undersong.bench.data;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import undersong.bench.metrics.ChordCode;
import undersong.bench.metrics.HarteChord;
import undersong.bench.metrics.KeyLabel;

/**
 * Songs of POP909: the sung tune and second voice of the original transcription, with chords, keys
 * and meter as human experts corrected them and phrase form as humans labeled it, joined by the
 * alignment table. Songs in eighth-note meters are refused: their beat is not stated.
 *
 * <p>Sources: Z. Wang and others, ISMIR 2020; M. Yao and others, 2025 (corrected chords); S. Dai
 * and others, 2020 (form).
 */
public final class Pop909Reader {
  private static final Pattern PHRASE = Pattern.compile("([A-Za-z])(\\d+)");

  private Pop909Reader() {}

  public static Harvest<Chart> readAll(Path folder) throws IOException {
    List<String[]> rows =
        Files.readAllLines(folder.resolve("alignment.tsv")).stream()
            .skip(1)
            .map(l -> l.split("\t", -1))
            .toList();
    List<Path> ids = rows.stream().map(r -> folder.resolve("original").resolve(r[0])).toList();
    return Harvest.of(ids, path -> read(folder, rows.get(ids.indexOf(path))));
  }

  private static Chart read(Path folder, String[] row) throws IOException {
    String id = row[0];
    NavigableMap<Double, String> meters = changes(row[6]);
    NavigableMap<Double, String> keys = changes(row[7]);
    if (meters.size() != 1 || !meters.firstEntry().getValue().endsWith("/4")) {
      throw new Harvest.Unreadable("meter %s has no stated beat".formatted(row[6]));
    }
    int beats = Integer.parseInt(meters.firstEntry().getValue().replace("/4", ""));
    double offset = Double.parseDouble(row[8]);
    double formOffset = Double.parseDouble(row[10]) + offset;
    double[] beatSeconds =
        Files.readAllLines(folder.resolve("original/%s/beat_midi.txt".formatted(id))).stream()
            .mapToDouble(l -> Double.parseDouble(l.split("\\s+")[0]))
            .toArray();
    MidiSong original = MidiSong.read(folder.resolve("original/%s/%s.mid".formatted(id, id)));
    List<Chart.Note> tune = notes(original, "MELODY", beatSeconds, offset);
    List<Chart.Note> second = notes(original, "BRIDGE", beatSeconds, offset);
    NavigableMap<Double, ChordCode> chords =
        chords(MidiSong.read(folder.resolve("chords-human/%s.mid".formatted(id))));
    String form =
        Files.readString(folder.resolve("structure/%s/human_label1.txt".formatted(id))).strip();
    return assemble(id, beats, keys, chords, new Tunes(tune, second), form, formOffset);
  }

  private record Tunes(List<Chart.Note> first, List<Chart.Note> second) {}

  private static Chart assemble(
      String id,
      int beats,
      NavigableMap<Double, String> keys,
      NavigableMap<Double, ChordCode> chords,
      Tunes tunes,
      String form,
      double formOffset) {
    NavigableMap<Integer, String> letters = letters(form, (int) Math.round(formOffset / beats));
    int count = (int) Math.ceil(chords.lastKey() / beats) + 1;
    List<Chart.Bar> bars = new ArrayList<>();
    for (int b = 0; b < count; b++) {
      double start = b * beats;
      List<Chart.Change> changes = new ArrayList<>();
      Map.Entry<Double, ChordCode> before = chords.floorEntry(start + 0.02);
      changes.add(new Chart.Change(0, before == null ? ChordCode.NONE : before.getValue()));
      chords
          .subMap(start + 0.02, false, start + beats - 0.02, true)
          .forEach((at, chord) -> changes.add(new Chart.Change(at - start, chord)));
      Map.Entry<Integer, String> letter = letters.floorEntry(b);
      Map.Entry<Double, String> key = keys.floorEntry(start + 0.5);
      bars.add(
          new Chart.Bar(
              beats,
              false,
              key(key == null ? keys.firstEntry().getValue() : key.getValue()),
              changes,
              letter == null ? "pre" : letter.getValue(),
              "",
              b == 0 || letters.containsKey(b)));
    }
    return new Chart("pop909-" + id, bars, tunes.first(), tunes.second());
  }

  private static NavigableMap<Double, String> changes(String cell) {
    NavigableMap<Double, String> changes = new TreeMap<>();
    for (String change : cell.split(";")) {
      String[] sides = change.split("=");
      changes.put(Double.parseDouble(sides[0]), sides[1]);
    }
    return changes;
  }

  private static KeyLabel key(String text) {
    String[] sides = text.split(":");
    int tonic = HarteChord.pitchClass(sides[0]);
    return sides[1].equals("min") ? KeyLabel.minor(tonic) : KeyLabel.major(tonic);
  }

  /** First bar of each phrase with its letter; phrases without a tune carry lower-case letters. */
  private static NavigableMap<Integer, String> letters(String form, int firstBar) {
    NavigableMap<Integer, String> letters = new TreeMap<>();
    int bar = firstBar;
    Matcher phrase = PHRASE.matcher(form);
    while (phrase.find()) {
      letters.put(bar, phrase.group(1));
      bar += Integer.parseInt(phrase.group(2));
    }
    letters.put(bar, "end");
    return letters;
  }

  private static List<Chart.Note> notes(
      MidiSong song, String name, double[] beatSeconds, double offset) {
    List<Chart.Note> notes = new ArrayList<>();
    for (MidiSong.Line line : song.lines()) {
      if (line.name().equals(name)) {
        double free = Double.NEGATIVE_INFINITY;
        for (MidiSong.Note note : line.notes()) {
          double start = position(beatSeconds, song.secondsAt(note.startTick())) + offset;
          double end = position(beatSeconds, song.secondsAt(note.endTick())) + offset;
          if (start >= free && start >= 0 && end - start > 0.05) {
            notes.add(new Chart.Note(start, end, note.pitch()));
            free = start + 0.05;
          }
        }
      }
    }
    return monophonic(notes);
  }

  /** Notes cut where the next begins. */
  static List<Chart.Note> monophonic(List<Chart.Note> notes) {
    List<Chart.Note> cut = new ArrayList<>();
    for (int i = 0; i < notes.size(); i++) {
      Chart.Note note = notes.get(i);
      double end =
          i + 1 < notes.size()
              ? Math.min(note.endBeat(), notes.get(i + 1).startBeat())
              : note.endBeat();
      if (end - note.startBeat() > 0.04) {
        cut.add(new Chart.Note(note.startBeat(), end, note.midiPitch()));
      }
    }
    return cut;
  }

  private static double position(double[] beatSeconds, double seconds) {
    int found = Arrays.binarySearch(beatSeconds, seconds);
    int i = Math.max(0, Math.min(beatSeconds.length - 2, found >= 0 ? found : -found - 2));
    return i + (seconds - beatSeconds[i]) / (beatSeconds[i + 1] - beatSeconds[i]);
  }

  private static NavigableMap<Double, ChordCode> chords(MidiSong song) {
    MidiSong.Line blocks = song.lines().get(song.lines().size() - 1);
    TreeMap<Double, List<MidiSong.Note>> byStart = new TreeMap<>();
    for (MidiSong.Note note : blocks.notes()) {
      double beat = Math.rint(4.0 * note.startTick() / song.ticksPerBeat()) / 4;
      byStart.computeIfAbsent(beat, at -> new ArrayList<>()).add(note);
    }
    NavigableMap<Double, ChordCode> chords = new TreeMap<>();
    double soundsUntil = 0;
    for (Map.Entry<Double, List<MidiSong.Note>> block : byStart.entrySet()) {
      if (block.getKey() - soundsUntil > 0.9) {
        chords.put(soundsUntil, ChordCode.NONE);
      }
      chords.put(block.getKey(), ChordNames.of(block.getValue()));
      soundsUntil =
          block.getValue().stream().mapToLong(MidiSong.Note::endTick).max().orElse(0)
              / (double) song.ticksPerBeat();
    }
    return chords;
  }
}
