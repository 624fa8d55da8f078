package undersong.bench.data;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;
import javax.sound.midi.InvalidMidiDataException;
import javax.sound.midi.MetaMessage;
import javax.sound.midi.MidiEvent;
import javax.sound.midi.MidiSystem;
import javax.sound.midi.Sequence;
import javax.sound.midi.ShortMessage;
import javax.sound.midi.Track;

/**
 * A Standard MIDI File as notes by track, with its tempo map.
 *
 * @param microsecondsPerBeat tempo from each tick on
 */
record MidiSong(
    int ticksPerBeat, List<Line> lines, NavigableMap<Long, Integer> microsecondsPerBeat) {
  /** One track that holds notes. */
  record Line(String name, List<Note> notes) {}

  record Note(long startTick, long endTick, int pitch) {}

  static MidiSong read(Path path) throws IOException {
    try {
      Sequence sequence = MidiSystem.getSequence(path.toFile());
      TreeMap<Long, Integer> tempi = new TreeMap<>(Map.of(0L, 500_000));
      List<Line> lines = new ArrayList<>();
      for (Track track : sequence.getTracks()) {
        Line line = line(track, tempi);
        if (!line.notes().isEmpty()) {
          lines.add(line);
        }
      }
      return new MidiSong(sequence.getResolution(), lines, tempi);
    } catch (InvalidMidiDataException notMidi) {
      throw new Harvest.Unreadable("is no Standard MIDI File: " + notMidi.getMessage());
    }
  }

  private static Line line(Track track, Map<Long, Integer> tempi) {
    String name = "";
    List<Note> notes = new ArrayList<>();
    Map<Integer, Long> open = new HashMap<>();
    for (int i = 0; i < track.size(); i++) {
      MidiEvent event = track.get(i);
      if (event.getMessage() instanceof MetaMessage meta) {
        byte[] bytes = meta.getData();
        if (meta.getType() == 0x51) {
          tempi.put(
              event.getTick(),
              (bytes[0] & 0xff) << 16 | (bytes[1] & 0xff) << 8 | (bytes[2] & 0xff));
        } else if (meta.getType() == 0x03) {
          name = new String(bytes, java.nio.charset.StandardCharsets.ISO_8859_1).strip();
        }
      } else if (event.getMessage() instanceof ShortMessage message) {
        int pitch = message.getData1();
        boolean on = message.getCommand() == ShortMessage.NOTE_ON && message.getData2() > 0;
        boolean off =
            message.getCommand() == ShortMessage.NOTE_OFF
                || message.getCommand() == ShortMessage.NOTE_ON;
        if (off) {
          Long start = open.remove(pitch);
          if (start != null && event.getTick() > start) {
            notes.add(new Note(start, event.getTick(), pitch));
          }
        }
        if (on) {
          open.put(pitch, event.getTick());
        }
      }
    }
    notes.sort(java.util.Comparator.comparingLong(Note::startTick));
    return new Line(name, notes);
  }

  double secondsAt(long tick) {
    double seconds = 0;
    long from = 0;
    int tempo = 500_000;
    for (Map.Entry<Long, Integer> change : microsecondsPerBeat.headMap(tick, true).entrySet()) {
      seconds += (change.getKey() - from) * (double) tempo / ticksPerBeat / 1e6;
      from = change.getKey();
      tempo = change.getValue();
    }
    return seconds + (tick - from) * (double) tempo / ticksPerBeat / 1e6;
  }
}
