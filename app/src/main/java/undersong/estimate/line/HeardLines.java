package undersong.estimate.line;

import java.lang.ref.WeakReference;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import undersong.estimate.Estimator;
import undersong.feature.Features;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Line;
import undersong.reading.LineKind;
import undersong.reading.Lines;
import undersong.reading.NoteEvent;
import undersong.reading.PartName;
import undersong.reading.Reading;
import undersong.reading.Voice;
import undersong.time.BeatGrid;

/**
 * The accompaniment's lines from the ear's note activations.
 *
 * <p><b>In:</b> the ear's notes and the stereo image; beats, bars; bass, lead and voices, whose
 * notes are left out. <b>Out:</b> lines that move by themselves before voices of chords, those with
 * most notes first. <b>Silence</b>, and a program without its trained ear, give none. <b>Cost:</b>
 * notes once per recording (about 1 ms a second of music), then O(notes * lines).
 */
public final class HeardLines implements Estimator<Lines> {
  private final LineSettings settings;
  private WeakReference<Features> lastFeatures = new WeakReference<>(null);
  private List<HeardNote> lastNotes = List.of();

  public HeardLines(LineSettings settings) {
    this.settings = settings;
  }

  @Override
  public Derived<Lines> estimate(Features features, Reading earlier, Corrections corrections) {
    BeatGrid grid = earlier.get(Facet.BEATS).grid();
    List<HeardNote> heard = Accompaniment.without(notes(features), known(earlier));
    List<Line> lines = new ArrayList<>();
    for (Grouping.Group group : Grouping.of(heard, grid, settings)) {
      List<HeardNote> notes = group.notes();
      lines.add(
          new Line(
              PartName.line(lines.size() + 1),
              notes.stream().map(HeardNote::event).toList(),
              group.moves() ? LineTeller.kind(notes, grid) : Optional.of(LineKind.CHORD_VOICE),
              LineTeller.placement(notes),
              notes.stream().mapToDouble(n -> n.event().probability()).average().orElse(0)));
    }
    PinnedLines pinned = new PinnedLines(corrections, earlier.durationSeconds());
    List<Line> said = pinned.laidOver(lines);
    return new Derived<>(new Lines(said, new Takeovers(earlier, said).all()), pinned.unplaced());
  }

  /** Notes of bass, lead and voices. */
  static List<NoteEvent> known(Reading reading) {
    List<NoteEvent> known = new ArrayList<>(reading.get(Facet.BASS).notes());
    known.addAll(reading.get(Facet.MELODY).notes());
    reading.get(Facet.VOICES).voices().stream().map(Voice::events).forEach(known::addAll);
    return known;
  }

  /** Hears the same recording once, so that a correction is answered fast. */
  @SuppressWarnings("ReferenceEquality") // the very same features; comparing them costs more
  private synchronized List<HeardNote> notes(Features features) {
    if (lastFeatures.get() != features) {
      lastNotes =
          features
              .heard()
              .map(ear -> Accompaniment.notes(ear, features, settings))
              .orElse(List.of());
      lastFeatures = new WeakReference<>(features);
    }
    return lastNotes;
  }
}
