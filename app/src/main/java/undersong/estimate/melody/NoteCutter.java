package undersong.estimate.melody;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import undersong.reading.NoteEvent;
import undersong.time.FrameClock;
import undersong.time.Span;

/**
 * Cuts an unbroken pitch curve into notes: the likeliest sequence of whole semitones (at the
 * recording's tuning) with a cost for every change, so that vibrato stays one note; a held pitch is
 * cut again where it is struck or sung anew.
 */
final class NoteCutter {
  /** No note begins twice within so many frames. */
  private static final int NEAR_FRAMES = 2;

  private final MelodySettings settings;
  private final double tuningSemitones;
  private final Restrikes restrikes;

  NoteCutter(MelodySettings settings, double tuningSemitones, Restrikes restrikes) {
    this.settings = settings;
    this.tuningSemitones = tuningSemitones;
    this.restrikes = restrikes;
  }

  /**
   * @param first frame of the stretch
   * @param pitches MIDI pitch of each of its frames
   * @return notes whose certainty nobody has weighed yet
   */
  List<NoteEvent> cut(FrameClock clock, int first, double[] pitches) {
    int[] semitones = semitones(pitches);
    List<Integer> starts = new ArrayList<>(List.of(0));
    int shortest =
        Math.max(1, (int) Math.round(settings.shortestNoteSeconds() * clock.framesPerSecond()));
    double[] anew = anew(clock, first, semitones);
    for (int i = 1; i < pitches.length; i++) {
      boolean changes = semitones[i] != semitones[i - 1];
      if ((changes || isPeak(anew, i)) && i - starts.get(starts.size() - 1) >= shortest) {
        starts.add(i);
      }
    }
    List<NoteEvent> notes = new ArrayList<>();
    for (int n = 0; n < starts.size(); n++) {
      int begin = starts.get(n);
      int end = n + 1 < starts.size() ? starts.get(n + 1) : pitches.length;
      if (end - begin >= shortest) {
        notes.add(
            new NoteEvent(
                new Span(clock.secondsAt(first + begin), clock.secondsAt(first + end)),
                median(pitches, begin, end),
                1));
      }
    }
    return notes;
  }

  private int[] semitones(double[] pitches) {
    double lowest = Arrays.stream(pitches).min().orElse(0);
    double highest = Arrays.stream(pitches).max().orElse(0);
    int low = (int) Math.floor(lowest - 1);
    int states = (int) Math.ceil(highest + 1) - low + 1;
    int[][] from = new int[pitches.length][states];
    double[] score = new double[states];
    for (int i = 0; i < pitches.length; i++) {
      int best = 0;
      for (int s = 1; s < states; s++) {
        best = score[s] > score[best] ? s : best;
      }
      double[] next = new double[states];
      for (int s = 0; s < states; s++) {
        boolean stays = score[s] >= score[best] - settings.noteChangeCost();
        from[i][s] = stays ? s : best;
        double off = (pitches[i] - tuningSemitones - (low + s)) / settings.pitchSpreadSemitones();
        next[s] =
            (stays ? score[s] : score[best] - settings.noteChangeCost())
                - Math.min(8, off * off / 2);
      }
      score = next;
    }
    int state = 0;
    for (int s = 1; s < states; s++) {
      state = score[s] > score[state] ? s : state;
    }
    int[] semitones = new int[pitches.length];
    for (int i = pitches.length - 1; i >= 0; i--) {
      semitones[i] = low + state;
      state = from[i][state];
    }
    return semitones;
  }

  /** Probability that a held pitch begins anew with each frame; 0 where the pitch changes. */
  private double[] anew(FrameClock clock, int first, int[] semitones) {
    double[] anew = new double[semitones.length];
    for (int i = NEAR_FRAMES; i < anew.length; i++) {
      if (semitones[i] == semitones[i - 1] && semitones[i] == semitones[i - NEAR_FRAMES]) {
        anew[i] = restrikes.probability(clock.secondsAt(first + i), semitones[i]);
      }
    }
    return anew;
  }

  private boolean isPeak(double[] anew, int frame) {
    boolean peak = anew[frame] >= settings.restrikeProbability();
    for (int step = 1; step <= NEAR_FRAMES && peak; step++) {
      peak =
          anew[frame] >= anew[Math.max(0, frame - step)]
              && anew[frame] >= anew[Math.min(anew.length - 1, frame + step)];
    }
    return peak;
  }

  private static double median(double[] values, int begin, int end) {
    double[] sorted = Arrays.copyOfRange(values, begin, end);
    Arrays.sort(sorted);
    return sorted[sorted.length / 2];
  }
}
