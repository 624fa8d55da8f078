package undersong.estimate.chord;

import java.lang.ref.WeakReference;
import undersong.feature.Features;

/**
 * Keeps the note strengths of the recording heard last, so that a correction does not hear it
 * again. Thread-safe; holds the features weakly.
 */
final class LastHeard {
  private WeakReference<Features> features = new WeakReference<>(null);
  private double tuningCents;
  private NoteStrengths notes;

  @SuppressWarnings("ReferenceEquality") // the very same features; comparing them costs more
  synchronized NoteStrengths notes(Features heard, double cents) {
    if (features.get() != heard || notes == null || tuningCents != cents) {
      notes = NoteStrengths.of(heard, cents);
      features = new WeakReference<>(heard);
      tuningCents = cents;
    }
    return notes;
  }
}
