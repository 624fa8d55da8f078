package undersong.estimate.line;

import java.util.ArrayList;
import java.util.List;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.kernel.NotePicker;
import undersong.reading.NoteEvent;
import undersong.time.FrameClock;
import undersong.time.Span;

/** Every note the ear heard begin, and what is left of them without bass, lead and voices. */
final class Accompaniment {
  private static final int LOWEST_MIDI = 21;

  /** A known note explains a heard one that begins this near, or within it. */
  private static final double SAME_ONSET_SECONDS = 0.1;

  private static final double SAME_PITCH_SEMITONES = 0.75;

  private Accompaniment() {}

  static List<HeardNote> notes(EarActivations ear, Features features, LineSettings settings) {
    FrameMatrix onsets = ear.head(EarHead.NOTE_ONSET);
    FrameMatrix sustains = ear.head(EarHead.NOTE_SUSTAIN);
    int ratio = sustains.clock().hopSamples() / onsets.clock().hopSamples();
    NotePlace place = new NotePlace(features.image());
    FrameClock clock = onsets.clock();
    List<HeardNote> notes = new ArrayList<>();
    for (NotePicker.Picked picked :
        NotePicker.pick(
            rows(onsets),
            rows(sustains),
            Math.max(1, ratio),
            (float) settings.leastOnset(),
            (float) settings.leastSustain())) {
      double start = clock.secondsAt(picked.startFrame());
      double pitch = (double) LOWEST_MIDI + picked.bin();
      Span span = new Span(start, clock.secondsAt(picked.endFrame()));
      double probability =
          Math.min(1, (picked.onset() + Math.max(picked.onset(), picked.sustain())) / 2);
      notes.add(new HeardNote(new NoteEvent(span, pitch, probability), place.of(start, pitch)));
    }
    return notes;
  }

  private static float[][] rows(FrameMatrix matrix) {
    float[][] rows = new float[matrix.frames()][matrix.bins()];
    for (int frame = 0; frame < rows.length; frame++) {
      matrix.copyFrame(frame, rows[frame]);
    }
    return rows;
  }

  /**
   * Those that no known part explains.
   *
   * @param heard by start
   * @param known notes of bass, lead and voices, any order
   */
  static List<HeardNote> without(List<HeardNote> heard, List<NoteEvent> known) {
    List<List<NoteEvent>> byPitch = new ArrayList<>();
    for (int pitch = 0; pitch < 129; pitch++) {
      byPitch.add(new ArrayList<>());
    }
    known.forEach(note -> byPitch.get((int) Math.round(note.midiPitch())).add(note));
    List<HeardNote> left = new ArrayList<>();
    for (HeardNote note : heard) {
      int pitch = (int) Math.round(note.pitch());
      boolean explained = false;
      for (int near = Math.max(0, pitch - 1); near <= Math.min(127, pitch + 1); near++) {
        explained |= byPitch.get(near).stream().anyMatch(k -> explains(k, note));
      }
      if (!explained) {
        left.add(note);
      }
    }
    return left;
  }

  private static boolean explains(NoteEvent known, HeardNote note) {
    return Math.abs(known.midiPitch() - note.pitch()) <= SAME_PITCH_SEMITONES
        && note.start() >= known.span().startSeconds() - SAME_ONSET_SECONDS
        && note.start() < known.span().endSeconds();
  }
}
