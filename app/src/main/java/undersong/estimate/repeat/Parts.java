package undersong.estimate.repeat;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import undersong.reading.Facet;
import undersong.reading.Line;
import undersong.reading.LineKind;
import undersong.reading.NoteEvent;
import undersong.reading.PartName;
import undersong.reading.Reading;
import undersong.time.BeatGrid;

/** The notes of every part on the beat grid, in the order of their onsets. */
final class Parts {
  /** No note is looked for further back than this. */
  private static final double LONGEST_BEATS = 16;

  private static final int PITCHES = 128;

  private final List<PlacedNote> notes = new ArrayList<>();
  private final List<List<PlacedNote>> byPitch = new ArrayList<>();
  private final List<String> names = new ArrayList<>();
  private final Set<String> chordVoices;

  private Parts(Set<String> chordVoices) {
    this.chordVoices = chordVoices;
  }

  static Parts of(Reading reading) {
    Map<String, List<NoteEvent>> byName = new LinkedHashMap<>();
    byName.put(PartName.BASS, reading.get(Facet.BASS).notes());
    byName.put(PartName.MELODY, reading.get(Facet.MELODY).notes());
    reading.get(Facet.VOICES).voices().forEach(v -> byName.put(v.name(), v.events()));
    reading.get(Facet.LINES).lines().forEach(line -> byName.put(line.name(), line.notes()));
    BeatGrid grid = reading.get(Facet.BEATS).grid();
    Parts parts =
        new Parts(
            reading.get(Facet.LINES).lines().stream()
                .filter(line -> line.kind().equals(Optional.of(LineKind.CHORD_VOICE)))
                .map(Line::name)
                .collect(Collectors.toSet()));
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
    for (int pitch = 0; pitch < PITCHES; pitch++) {
      parts.byPitch.add(new ArrayList<>());
    }
    for (PlacedNote note : parts.notes) {
      parts.byPitch.get((int) Math.round(note.event().midiPitch())).add(note);
    }
    return parts;
  }

  List<String> names() {
    return names;
  }

  /** Whether a part is but one voice of chords. */
  boolean isChordVoice(String name) {
    return chordVoices.contains(name);
  }

  /** Notes that begin in [fromBeat, toBeat). */
  List<PlacedNote> beginning(double fromBeat, double toBeat) {
    return notes.subList(firstFrom(notes, fromBeat), firstFrom(notes, toBeat));
  }

  /** Notes that sound at some time in [fromBeat, toBeat). */
  List<PlacedNote> sounding(double fromBeat, double toBeat) {
    return sounding(notes, fromBeat, toBeat);
  }

  /** Likewise, of one pitch to the nearest semitone. */
  List<PlacedNote> sounding(int midiPitch, double fromBeat, double toBeat) {
    return midiPitch < 0 || midiPitch >= PITCHES
        ? List.of()
        : sounding(byPitch.get(midiPitch), fromBeat, toBeat);
  }

  private static List<PlacedNote> sounding(
      List<PlacedNote> sorted, double fromBeat, double toBeat) {
    List<PlacedNote> sounding = new ArrayList<>();
    for (int i = firstFrom(sorted, fromBeat - LONGEST_BEATS);
        i < sorted.size() && sorted.get(i).startBeat() < toBeat;
        i++) {
      if (sorted.get(i).endBeat() > fromBeat) {
        sounding.add(sorted.get(i));
      }
    }
    return sounding;
  }

  private static int firstFrom(List<PlacedNote> sorted, double beat) {
    int low = 0;
    int high = sorted.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (sorted.get(middle).startBeat() < beat) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }
}
