package undersong.bench.decode;

import java.io.IOException;
import java.io.PrintStream;
import java.util.List;
import java.util.Locale;
import undersong.bench.metrics.SungNote;
import undersong.bench.render.Truth;
import undersong.estimate.melody.HeardMelody;
import undersong.estimate.melody.MelodySettings;
import undersong.estimate.voice.Candidate;
import undersong.estimate.voice.Candidates;
import undersong.feature.Features;
import undersong.reading.Corrections;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;

/**
 * Writes what {@code training/seconds.py} fits to: one row for each pitch that begins with a note
 * of the heard lead, which note of the true second voice it is (-1: none), and the evidence. A copy
 * begins with a row without a candidate that says how many such notes and seconds there are.
 */
public final class SecondVoiceRows {
  private static final double AT_SECONDS = 0.05;
  private static final double SAME_SEMITONES = 0.5;

  private SecondVoiceRows() {}

  /**
   * @param arguments cache and soundfont, as the bench has them; file to write; the sets
   */
  public static void main(String[] arguments) throws IOException {
    TuningSong.writeTuneRows(arguments, SecondVoiceRows::write);
  }

  private static void write(
      Truth truth, String copy, Reading reading, Features features, PrintStream out) {
    List<NoteEvent> lead =
        new HeardMelody(MelodySettings.DEFAULTS)
            .estimate(features, reading, Corrections.NONE)
            .value()
            .notes();
    Candidates candidates = new Candidates(features.heard().orElseThrow(), lead);
    out.printf(
        Locale.ROOT,
        "%s,-1,%d,%.3f%s%n",
        copy,
        truth.second().size(),
        truth.durationSeconds(),
        ",0".repeat(Candidates.EVIDENCE.size()));
    for (int n = 0; n < lead.size(); n++) {
      for (Candidate candidate : candidates.beside(lead.get(n))) {
        out.printf("%s,%d,%d,%d", copy, n, candidate.aboveLead(), trueNote(truth, candidate));
        candidate.evidence().forEach(weight -> out.printf(Locale.ROOT, ",%.4f", weight));
        out.println();
      }
    }
  }

  private static int trueNote(Truth truth, Candidate candidate) {
    for (int i = 0; i < truth.second().size(); i++) {
      SungNote note = truth.second().get(i);
      if (Math.abs(note.startSeconds() - candidate.span().startSeconds()) <= AT_SECONDS
          && Math.abs(note.midiPitch() - candidate.midiPitch()) <= SAME_SEMITONES) {
        return i;
      }
    }
    return -1;
  }
}
