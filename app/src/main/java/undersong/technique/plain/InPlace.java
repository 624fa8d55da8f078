package undersong.technique.plain;

import java.util.ArrayList;
import java.util.List;
import undersong.reading.Bass;
import undersong.reading.Beats;
import undersong.reading.ChordSpan;
import undersong.reading.Chords;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Harmony;
import undersong.reading.HarmonyEvent;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.time.BeatGrid;
import undersong.time.Span;

/**
 * Chords that arrive early or late, set where the beat has them; the bass note that brings one goes
 * with it.
 */
final class InPlace {
  /** From here on a chord counts as early or late. */
  private static final double NOTICED_BEATS = 0.2;

  /** A bass note this near to a chord's arrival is the one that brings it. */
  private static final double TOGETHER_SECONDS = 0.12;

  private final Reading reading;
  private final Span span;
  private final BeatGrid grid;

  InPlace(Reading reading, Span span) {
    this.reading = reading;
    this.span = span;
    this.grid = reading.find(Facet.BEATS).map(Beats::grid).orElse(BeatGrid.NO_PULSE);
  }

  Reading reading() {
    List<ChordSpan> chords = reading.get(Facet.CHORDS).spans();
    List<HarmonyEvent> events = reading.find(Facet.HARMONY).map(Harmony::events).orElse(List.of());
    if (grid.isEmpty() || events.size() != chords.size()) {
      return reading;
    }
    double[] starts = new double[chords.size()];
    for (int i = 0; i < starts.length; i++) {
      double start = chords.get(i).span().startSeconds();
      double late = events.get(i).arrivalBeats();
      boolean moves =
          i > 0 && Math.abs(late) >= NOTICED_BEATS && chords.get(i).span().overlaps(span);
      double place = moves ? grid.secondsAtPosition(grid.positionAt(start) - late) : start;
      boolean fits =
          i == 0
              || (place > starts[i - 1] + 0.01 && place < chords.get(i).span().endSeconds() - 0.01);
      starts[i] = fits ? place : start;
    }
    List<ChordSpan> placed = new ArrayList<>();
    List<NoteEvent> bass = new ArrayList<>(reading.get(Facet.BASS).notes());
    for (int i = 0; i < starts.length; i++) {
      ChordSpan chord = chords.get(i);
      double end = i + 1 < starts.length ? starts[i + 1] : chord.span().endSeconds();
      placed.add(chord.over(new Span(starts[i], end)));
      move(bass, chord.span().startSeconds(), starts[i]);
    }
    if (placed.equals(chords)) {
      return reading;
    }
    return reading
        .with(Facet.CHORDS, Derived.of(new Chords(placed)))
        .with(Facet.BASS, Derived.of(new Bass(PlainBars.withoutOverlaps(bass))));
  }

  /** Moves the note that comes with a chord; the one before it lasts until then. */
  private static void move(List<NoteEvent> bass, double from, double to) {
    if (from == to) {
      return;
    }
    for (int i = 0; i < bass.size(); i++) {
      NoteEvent note = bass.get(i);
      if (Math.abs(note.span().startSeconds() - from) > TOGETHER_SECONDS) {
        continue;
      }
      double end = Math.max(note.span().endSeconds(), to + 0.1);
      bass.set(i, new NoteEvent(new Span(to, end), note.midiPitch(), note.probability()));
      if (i > 0 && from < to && from - bass.get(i - 1).span().endSeconds() < TOGETHER_SECONDS) {
        NoteEvent before = bass.get(i - 1);
        bass.set(
            i - 1,
            new NoteEvent(
                new Span(before.span().startSeconds(), to),
                before.midiPitch(),
                before.probability()));
      }
      return;
    }
  }
}
