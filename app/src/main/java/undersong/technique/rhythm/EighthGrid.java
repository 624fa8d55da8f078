package undersong.technique.rhythm;

import java.util.List;
import undersong.reading.Bar;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.technique.Pulse;

/** Onsets of a part on the eighths of each bar, two to a beat, three where beats divide so. */
final class EighthGrid {
  private final Pulse pulse;
  private final double swingRatio;

  EighthGrid(Reading reading, Pulse pulse) {
    this.pulse = pulse;
    this.swingRatio = reading.get(undersong.reading.Facet.BEATS).swingRatio();
  }

  static int eighthsPerBeat(Bar bar) {
    return bar.signature().compound() ? 3 : 2;
  }

  boolean isFeltHalfAsFast() {
    return pulse.meter().usualBarsPerBar() == 2;
  }

  /** For each eighth of a bar whether a note begins on it. */
  boolean[] onsets(Bar bar, List<NoteEvent> notes) {
    int perBeat = eighthsPerBeat(bar);
    boolean[] onsets = new boolean[bar.beats() * perBeat];
    for (NoteEvent note : notes) {
      double start = note.span().startSeconds();
      // A little early is still on the eighth.
      if (start < bar.span().startSeconds() - 0.3 || start > bar.span().endSeconds()) {
        continue;
      }
      int eighth = eighth(pulse.grid().positionAt(start) - bar.firstBeat(), perBeat);
      if (eighth >= 0 && eighth < onsets.length) {
        onsets[eighth] = true;
      }
    }
    return onsets;
  }

  /** For each sixteenth of a bar in simple time whether a note begins on it. */
  boolean[] sixteenths(Bar bar, List<NoteEvent> notes) {
    boolean[] onsets = new boolean[4 * bar.beats()];
    for (NoteEvent note : notes) {
      double start = note.span().startSeconds();
      if (start >= bar.span().startSeconds() - 0.3 && start <= bar.span().endSeconds()) {
        int place = (int) Math.round(4 * (pulse.grid().positionAt(start) - bar.firstBeat()));
        if (place >= 0 && place < onsets.length) {
          onsets[place] = true;
        }
      }
    }
    return onsets;
  }

  private int eighth(double beat, int perBeat) {
    int whole = (int) Math.floor(beat);
    double rest = beat - whole;
    if (perBeat == 3) {
      return (int) Math.round(beat * 3);
    }
    double offbeat = swingRatio / (1 + swingRatio);
    if (Math.abs(rest - offbeat) < Math.min(rest, 1 - rest)) {
      return 2 * whole + 1;
    }
    return 2 * (rest > 0.5 ? whole + 1 : whole);
  }
}
