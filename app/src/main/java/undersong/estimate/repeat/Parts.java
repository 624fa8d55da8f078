package undersong.estimate.repeat;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.PartName;
import undersong.reading.Reading;
import undersong.time.BeatGrid;

/** The notes of every part on the beat grid, in the order of their onsets. */
final class Parts {
  /** No note is looked for further back than this. */
  private static final double LONGEST_BEATS = 16;

  private final List<PlacedNote> notes = new ArrayList<>();
  private final List<String> names = new ArrayList<>();

  private Parts() {}

  static Parts of(Reading reading) {
    Map<String, List<NoteEvent>> byName = new LinkedHashMap<>();
    byName.put(PartName.BASS, reading.get(Facet.BASS).notes());
    byName.put(PartName.MELODY, reading.get(Facet.MELODY).notes());
    reading.get(Facet.VOICES).voices().forEach(v -> byName.put(v.name(), v.events()));
    reading.get(Facet.LINES).lines().forEach(line -> byName.put(line.name(), line.notes()));
    BeatGrid grid = reading.get(Facet.BEATS).grid();
    Parts parts = new Parts();
    byName.forEach(
        (name, events) -> {
          parts.names.add(name);
          for (NoteEvent event : events) {
            parts.notes.add(
                new PlacedNote(
                    name,
                    event,
                    grid.positionAt(event.span().startSeconds()),
                    grid.positionAt(event.span().endSeconds())));
          }
        });
    parts.notes.sort(Comparator.comparingDouble(PlacedNote::startBeat));
    return parts;
  }

  List<String> names() {
    return names;
  }

  /** Notes that begin in [fromBeat, toBeat). */
  List<PlacedNote> beginning(double fromBeat, double toBeat) {
    return notes.subList(firstFrom(fromBeat), firstFrom(toBeat));
  }

  /** Notes that sound at some time in [fromBeat, toBeat). */
  List<PlacedNote> sounding(double fromBeat, double toBeat) {
    return notes.subList(firstFrom(fromBeat - LONGEST_BEATS), firstFrom(toBeat)).stream()
        .filter(note -> note.endBeat() > fromBeat)
        .toList();
  }

  private int firstFrom(double beat) {
    int low = 0;
    int high = notes.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (notes.get(middle).startBeat() < beat) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }
}
