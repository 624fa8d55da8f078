package undersong.bench.decode;

import java.io.IOException;
import java.io.PrintStream;
import java.util.List;
import java.util.Locale;
import undersong.bench.render.Truth;
import undersong.estimate.melody.HeardMelody;
import undersong.estimate.melody.LeadPath;
import undersong.estimate.melody.MelodySettings;
import undersong.estimate.melody.OwnNotes;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.feature.StereoPowers;
import undersong.reading.Corrections;
import undersong.reading.Facet;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;

/**
 * Writes what {@code training/owner.py} fits to: one row for each note that was followed as the
 * lead, whether the lead sounds there, at this pitch, how long it lasts, and the evidence.
 */
public final class OwnNoteRows {
  private static final double SAME_SEMITONES = 0.6;

  private OwnNoteRows() {}

  /**
   * @param arguments cache and soundfont, as the bench has them; file to write; the sets
   */
  public static void main(String[] arguments) throws IOException {
    TuningSong.writeTuneRows(arguments, OwnNoteRows::write);
  }

  private static void write(
      Truth truth, String copy, Reading reading, Features features, PrintStream out) {
    double tuning = reading.get(Facet.TUNING).cents() / 100;
    List<NoteEvent> notes =
        new HeardMelody(MelodySettings.DEFAULTS.withLeastOwn(Double.NEGATIVE_INFINITY))
            .estimate(features, reading, Corrections.NONE)
            .value()
            .notes();
    EarActivations ear = features.heard().orElseThrow();
    LeadPath path = LeadPath.find(ear.head(EarHead.LEAD), MelodySettings.DEFAULTS);
    List<double[]> evidence =
        new OwnNotes(ear, path, StereoPowers.of(features.image()), tuning).evidence(notes);
    for (int i = 0; i < notes.size(); i++) {
      NoteEvent note = notes.get(i);
      out.printf(
          Locale.ROOT, "%s,%d,%.3f", copy, own(truth, note, tuning), note.span().lengthSeconds());
      for (double weight : evidence.get(i)) {
        out.printf(Locale.ROOT, ",%.4f", weight);
      }
      out.println();
    }
  }

  /**
   * 1 where the lead sounds for most of a note, 0 where it rests for most of it; -1 where it sounds
   * at a pitch that is not this one, which teaches nothing.
   */
  private static int own(Truth truth, NoteEvent note, double tuning) {
    int from = (int) Math.rint(note.span().startSeconds() / Truth.CURVE_HOP_SECONDS);
    int to = (int) Math.rint(note.span().endSeconds() / Truth.CURVE_HOP_SECONDS);
    int sounds = 0;
    int same = 0;
    int points = 0;
    for (int i = Math.max(0, from); i < Math.min(truth.curve().size(), to); i++) {
      double hertz = truth.curve().get(i);
      points++;
      if (hertz > 0) {
        sounds++;
        double midi = 69 + 12 * Math.log(hertz / 440) / Math.log(2);
        same += Math.abs(midi - tuning - note.midiPitch()) < SAME_SEMITONES ? 1 : 0;
      }
    }
    if (2 * same >= points) {
      return 1;
    }
    return 2 * sounds <= points ? 0 : -1;
  }
}
