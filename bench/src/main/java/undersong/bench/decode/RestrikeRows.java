package undersong.bench.decode;

import java.io.IOException;
import java.io.PrintStream;
import java.util.List;
import java.util.Locale;
import undersong.bench.metrics.SungNote;
import undersong.bench.render.Truth;
import undersong.estimate.melody.HeardMelody;
import undersong.estimate.melody.MelodySettings;
import undersong.estimate.melody.Restrikes;
import undersong.feature.Features;
import undersong.reading.Corrections;
import undersong.reading.Facet;
import undersong.reading.Melody;
import undersong.reading.PitchStretch;
import undersong.reading.Reading;
import undersong.study.Studied;

/**
 * Writes what {@code training/restrikes.py} fits to: one row for each frame of a held pitch,
 * whether a note of that pitch begins anew there (1) or nothing begins near (0), and the evidence.
 */
public final class RestrikeRows {
  private static final double HELD_SEMITONES = 0.7;
  private static final double SAME_SEMITONES = 0.6;
  private static final double AT_SECONDS = 0.021;
  private static final double NEAR_SECONDS = 0.09;

  private RestrikeRows() {}

  /**
   * @param arguments cache and soundfont, as the bench has them; file to write; the sets
   */
  public static void main(String[] arguments) throws IOException {
    TuningSong.writeRows(
        arguments,
        (set, truth, id, studied, features, out) -> write(truth, id, studied, features, out));
  }

  private static void write(
      Truth truth, String id, Studied studied, Features features, PrintStream out) {
    Reading reading = studied.stored().reading();
    double tuning = reading.get(Facet.TUNING).cents() / 100;
    Melody melody =
        new HeardMelody(MelodySettings.DEFAULTS)
            .estimate(features, reading, Corrections.NONE)
            .value();
    Restrikes restrikes = new Restrikes(features.heard().orElseThrow(), features.onsetStrength());
    for (PitchStretch stretch : melody.curve()) {
      List<Double> pitches = stretch.midiPitches();
      for (int i = 2; i + 1 < pitches.size(); i++) {
        boolean held =
            Math.abs(pitches.get(i) - pitches.get(i - 1)) <= HELD_SEMITONES
                && Math.abs(pitches.get(i) - pitches.get(i - 2)) <= 2 * HELD_SEMITONES;
        double seconds = stretch.startSeconds() + i * stretch.stepSeconds();
        int midi = (int) Math.round(pitches.get(i) - tuning);
        int label = held ? label(truth.melody(), seconds, midi) : -1;
        if (label >= 0) {
          StringBuilder row = new StringBuilder();
          row.append(id.hashCode()).append(',').append(truth.sung() ? 1 : 0).append(',');
          row.append(label).append(String.format(Locale.ROOT, ",%.3f", seconds));
          for (double evidence : restrikes.evidence(seconds, midi)) {
            row.append(String.format(Locale.ROOT, ",%.4f", evidence));
          }
          out.println(row);
        }
      }
    }
  }

  /** 1 anew, 0 held on, -1 neither. */
  private static int label(List<SungNote> notes, double seconds, int midi) {
    boolean sounds = false;
    boolean near = false;
    for (int n = 0; n < notes.size(); n++) {
      SungNote note = notes.get(n);
      boolean same = Math.abs(note.midiPitch() - midi) < SAME_SEMITONES;
      double off = Math.abs(seconds - note.startSeconds());
      sounds |= same && note.startSeconds() <= seconds && note.endSeconds() >= seconds;
      near |= off < NEAR_SECONDS;
      boolean again =
          n > 0 && Math.abs(notes.get(n - 1).midiPitch() - note.midiPitch()) < SAME_SEMITONES;
      if (same && again && off <= AT_SECONDS) {
        return 1;
      }
    }
    return sounds && !near ? 0 : -1;
  }
}
