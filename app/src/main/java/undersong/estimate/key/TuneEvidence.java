package undersong.estimate.key;

import java.util.List;
import undersong.reading.NoteEvent;

/**
 * What the tune says for each of 24 keys, bar by bar: how common each of its notes is above the
 * tonic, by the square root of its length in bars. Divided by the square root of the number of
 * notes, which do not speak independently.
 */
final class TuneEvidence {
  private TuneEvidence() {}

  /** Adds the weighted log-likelihood of the notes that begin in each unit; nothing without any. */
  static void add(List<NoteEvent> melody, double[] boundaries, double weight, float[][] evidence) {
    KeyCounts counts = KeyCounts.standard();
    double tempered = weight / Math.sqrt(Math.max(1, melody.size()));
    int unit = 0;
    for (NoteEvent note : melody) {
      while (unit < evidence.length - 1 && boundaries[unit + 1] <= note.span().startSeconds()) {
        unit++;
      }
      double bars = note.span().lengthSeconds() / (boundaries[unit + 1] - boundaries[unit]);
      double said = tempered * note.probability() * Math.sqrt(Math.min(1, bars));
      for (int key = 0; key < TonicEvidence.KEYS; key++) {
        evidence[unit][key] += (float) (said * counts.tone(note.pitchClass(), key));
      }
    }
  }
}
