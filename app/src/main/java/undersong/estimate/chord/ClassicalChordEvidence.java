package undersong.estimate.chord;

import undersong.reading.Bass;
import undersong.reading.Melody;
import undersong.reading.NoteEvent;

/**
 * Chord evidence from note strengths: a pitch class belongs to the chord the likelier, the stronger
 * its share of all that sounds, and the stronger it sounds in the low register.
 */
final class ClassicalChordEvidence {
  private static final int LOW_BELOW_PITCH = 50;
  private static final int HIGH_FROM_PITCH = 86;

  // Logistic regression on renderings (TimGM6mb) of the charts marked for learning.
  private static final double WEIGHT_MIDDLE = 25.0;
  private static final double LOW_SHARE = 0.5; // what leaks up from a bass alone is small beside it
  private static final double WEIGHT_LOW = 4.4;
  // The offset leaves out how common members are, which the decoder's priors say.
  private static final double OFFSET = -7.9;

  /** A step whose level is below this share of the loud steps' counts as silent. */
  private static final double SILENT_SHARE = 0.06;

  /** Summed magnitudes below this are silence in any song. */
  private static final double INAUDIBLE = 1e-3;

  /** A note of the leading voice is taken out of the accompaniment by this much. */
  private static final float VOICE_SHARE = 0.8f;

  private ClassicalChordEvidence() {}

  static ChordEvidence of(NoteStrengths notes, StepGrid grid, Bass bass, Melody melody) {
    int steps = grid.steps();
    float[][] pitchClasses = new float[steps][12];
    float[][] bassShares = bassShares(grid, bass);
    double[] levels = new double[steps];
    float[] strengths = new float[NoteStrengths.PITCHES];
    float[] voiced = new float[NoteStrengths.PITCHES];
    int nextNote = 0;
    for (int step = 0; step < steps; step++) {
      int from = Math.max(0, (int) Math.ceil(frame(notes, grid.startSeconds(step))));
      int to = Math.max(from + 1, (int) Math.ceil(frame(notes, grid.endSeconds(step))));
      from = Math.min(from, Math.max(0, notes.frames() - 1));
      notes.mean(from, Math.min(to, notes.frames()), strengths);
      levels[step] = notes.level(from, Math.min(to, notes.frames()));
      nextNote = takeOutVoice(melody, nextNote, grid, step, strengths, voiced);
      logOdds(strengths, pitchClasses[step]);
    }
    return new ChordEvidence(pitchClasses, bassShares, sounding(levels), new float[0][]);
  }

  private static double frame(NoteStrengths notes, double seconds) {
    return seconds * notes.clock().framesPerSecond();
  }

  /** Returns the first melody note that may still sound in the next step. */
  private static int takeOutVoice(
      Melody melody, int first, StepGrid grid, int step, float[] strengths, float[] voiced) {
    double start = grid.startSeconds(step);
    double end = grid.endSeconds(step);
    java.util.Arrays.fill(voiced, 0);
    int note = first;
    while (note < melody.notes().size() && melody.notes().get(note).span().endSeconds() <= start) {
      note++;
    }
    for (int i = note; i < melody.notes().size(); i++) {
      NoteEvent event = melody.notes().get(i);
      if (event.span().startSeconds() >= end) {
        break;
      }
      int pitch = (int) Math.round(event.midiPitch()) - NoteStrengths.LOWEST_PITCH;
      if (pitch >= 0 && pitch < NoteStrengths.PITCHES) {
        double heard =
            (Math.min(end, event.span().endSeconds())
                    - Math.max(start, event.span().startSeconds()))
                / (end - start);
        voiced[pitch] += (float) (VOICE_SHARE * event.probability() * heard);
      }
    }
    for (int p = 0; p < strengths.length; p++) {
      strengths[p] *= 1 - Math.min(VOICE_SHARE, voiced[p]);
    }
    return note;
  }

  private static void logOdds(float[] strengths, float[] out) {
    double[] middle = new double[12];
    double[] low = new double[12];
    for (int p = 0; p < strengths.length; p++) {
      int pitch = NoteStrengths.LOWEST_PITCH + p;
      if (pitch < LOW_BELOW_PITCH) {
        low[pitch % 12] += strengths[p];
      } else if (pitch < HIGH_FROM_PITCH) {
        middle[pitch % 12] += strengths[p];
      }
    }
    double all = 1e-3;
    double allLow = 0;
    double strongestLow = 1e-3;
    for (int c = 0; c < 12; c++) {
      all += middle[c];
      allLow += low[c];
      strongestLow = Math.max(strongestLow, low[c]);
    }
    for (int c = 0; c < 12; c++) {
      out[c] =
          (float)
              (OFFSET
                  + WEIGHT_MIDDLE * Math.sqrt(middle[c] / (all + LOW_SHARE * allLow))
                  + WEIGHT_LOW * low[c] / strongestLow);
    }
  }

  private static boolean[] sounding(double[] levels) {
    double[] sorted = levels.clone();
    java.util.Arrays.sort(sorted);
    double loud = sorted[(int) (0.8 * (sorted.length - 1))];
    boolean[] sounding = new boolean[levels.length];
    for (int step = 0; step < levels.length; step++) {
      sounding[step] = levels[step] > SILENT_SHARE * loud && levels[step] > INAUDIBLE;
    }
    return sounding;
  }

  static float[][] bassShares(StepGrid grid, Bass bass) {
    float[][] shares = new float[grid.steps()][12];
    for (NoteEvent note : bass.notes()) {
      int step = Math.max(0, grid.nearestStart(note.span().startSeconds()) - 1);
      for (; step < grid.steps() && grid.startSeconds(step) < note.span().endSeconds(); step++) {
        double overlap =
            Math.min(grid.endSeconds(step), note.span().endSeconds())
                - Math.max(grid.startSeconds(step), note.span().startSeconds());
        if (overlap > 0) {
          double length = grid.endSeconds(step) - grid.startSeconds(step);
          shares[step][note.pitchClass()] += (float) (note.probability() * overlap / length);
        }
      }
    }
    return shares;
  }
}
