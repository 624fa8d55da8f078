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
import undersong.estimate.voice.FreeCandidates;
import undersong.estimate.voice.FreeSettings;
import undersong.estimate.voice.HeardVoices;
import undersong.estimate.voice.VoiceSettings;
import undersong.feature.Features;
import undersong.feature.StereoPowers;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Facet;
import undersong.reading.Melody;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;

/**
 * Writes what {@code training/free.py} fits to: one row for each note that may be one of a voice
 * that goes its own way, which note of the true second voice it is (-1: none), and the evidence. A
 * copy begins with a row without a candidate that says how many such notes and seconds there are;
 * then come the notes of the voice that moves with the lead, which stand first.
 */
public final class FreeVoiceRows {
  private static final double AT_SECONDS = 0.05;
  private static final double SAME_SEMITONES = 0.5;

  private FreeVoiceRows() {}

  /**
   * @param arguments cache and soundfont, as the bench has them; file to write; the sets
   */
  public static void main(String[] arguments) throws IOException {
    TuningSong.writeTuneRows(arguments, FreeVoiceRows::write);
  }

  private static void write(
      Truth truth, String copy, Reading reading, Features features, PrintStream out) {
    Derived<Melody> melody =
        new HeardMelody(MelodySettings.DEFAULTS).estimate(features, reading, Corrections.NONE);
    List<NoteEvent> lead = melody.value().notes();
    List<NoteEvent> along =
        new HeardVoices(VoiceSettings.DEFAULTS, FreeSettings.NOBODY)
                .estimate(features, reading.with(Facet.MELODY, melody), Corrections.NONE)
                .value()
                .voices()
                .stream()
                .flatMap(voice -> voice.events().stream())
                .toList();
    double tuning = reading.get(Facet.TUNING).cents() / 100;
    FreeCandidates candidates =
        new FreeCandidates(
            features.heard().orElseThrow(), StereoPowers.of(features.image()), lead, tuning);
    out.printf(
        Locale.ROOT,
        "%s,-1,0,0,0,%d,%.3f%s%n",
        copy,
        truth.second().size(),
        truth.durationSeconds(),
        ",0".repeat(FreeCandidates.EVIDENCE.size() - 1));
    for (NoteEvent note : along) {
      out.printf(
          Locale.ROOT,
          "%s,%.3f,%.3f,%d,%d,%d%s%n",
          copy,
          note.span().startSeconds(),
          note.span().endSeconds(),
          Math.round(note.midiPitch()),
          FreeCandidates.Standing.values().length,
          trueNote(truth, note.span().startSeconds(), note.midiPitch()),
          ",0".repeat(FreeCandidates.EVIDENCE.size()));
    }
    for (Candidate candidate : candidates.all()) {
      FreeCandidates.Standing standing = candidates.standing(candidate.span());
      out.printf(
          Locale.ROOT,
          "%s,%.3f,%.3f,%d,%d,%d",
          copy,
          candidate.span().startSeconds(),
          candidate.span().endSeconds(),
          candidate.midiPitch(),
          List.of(FreeCandidates.Standing.values()).indexOf(standing),
          trueNote(truth, candidate.span().startSeconds(), candidate.midiPitch()));
      candidate.evidence().forEach(weight -> out.printf(Locale.ROOT, ",%.4f", weight));
      out.println();
    }
  }

  private static int trueNote(Truth truth, double seconds, double midiPitch) {
    for (int i = 0; i < truth.second().size(); i++) {
      SungNote note = truth.second().get(i);
      if (Math.abs(note.startSeconds() - seconds) <= AT_SECONDS
          && Math.abs(note.midiPitch() - midiPitch) <= SAME_SEMITONES) {
        return i;
      }
    }
    return -1;
  }
}
