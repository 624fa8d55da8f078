package undersong.estimate.voice;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.reading.NoteEvent;
import undersong.time.Span;

/**
 * Weighs, for each note of the lead, every pitch around it that begins with it.
 *
 * <p>A logistic regression, fitted by {@code training/seconds.py} on the rows of {@code
 * undersong.bench.decode.SecondVoiceRows}. That a song set's second voices lie below the lead, or
 * keep to its smaller intervals, is left out of the evidence: music at large does not hold to it.
 */
public final class Candidates {
  /**
   * What is weighed: logarithms of the pitch's onset, of its activation as a second voice, and of
   * the chance that a second voice sounds, here and at the song's clearest; whether it lies a
   * third, fourth, fifth or sixth from the lead; whether an octave; whether the bass has it; and
   * the share of beginnings around that pitch that fall apart from the lead's.
   */
  public static final List<String> EVIDENCE =
      List.of("onset", "pitch", "sounds", "song", "consonant", "octave", "bass", "apart");

  /** In the order of {@link #EVIDENCE}. */
  private static final double[] WEIGHTS = {1.56, 2.01, 0.52, -0.14, 1.44, -1.53, -1.22, -1.11};

  private static final double BIAS = 2.37;

  private static final int LOWEST_MIDI = 21;
  private static final int LOWEST_BASS_MIDI = 23;
  private static final int NO_BASS = 45;
  private static final int SECOND = 2;
  private static final int WIDEST_SEMITONES = 16;
  private static final int NARROWEST_SEMITONES = 2;
  private static final int ONSET_REACH_FRAMES = 4;
  private static final double LEAST_ONSET = 0.2;
  private static final double SOUNDS = 0.3;
  private static final double BEST_SHARE = 0.9;
  private static final double FLOOR = 0.05;
  private static final double PITCH_FLOOR = 0.003;
  private static final int LONGEST_OVERHANG_FRAMES = 50;

  private final FrameMatrix onsets;
  private final FrameMatrix sustains;
  private final FrameMatrix second;
  private final FrameMatrix voicing;
  private final FrameMatrix bass;
  private final BeginningsApart apart;
  private final double song;

  /**
   * @param lead its notes, in order
   */
  public Candidates(EarActivations ear, List<NoteEvent> lead) {
    onsets = ear.head(EarHead.NOTE_ONSET);
    sustains = ear.head(EarHead.NOTE_SUSTAIN);
    second = ear.head(EarHead.SECOND);
    voicing = ear.head(EarHead.VOICING);
    bass = ear.head(EarHead.BASS_PITCH);
    apart = new BeginningsApart(onsets, lead);
    double[] sounds = new double[voicing.frames()];
    for (int frame = 0; frame < sounds.length; frame++) {
      sounds[frame] = Math.log(voicing.at(frame, SECOND) + FLOOR);
    }
    Arrays.sort(sounds);
    song = sounds.length == 0 ? 0 : sounds[(int) (BEST_SHARE * (sounds.length - 1))];
  }

  /** By pitch; empty where nothing begins beside the lead. */
  public List<Candidate> beside(NoteEvent lead) {
    int from = Math.max(0, voicing.clock().frameAt(lead.span().startSeconds()));
    int to =
        Math.min(
            voicing.frames(),
            Math.max(from + 1, voicing.clock().frameAt(lead.span().endSeconds())));
    List<Candidate> candidates = new ArrayList<>();
    if (from >= to) {
      return candidates;
    }
    int leadBin = (int) Math.round(lead.midiPitch()) - LOWEST_MIDI;
    for (int above = -WIDEST_SEMITONES; above <= WIDEST_SEMITONES; above++) {
      int bin = leadBin + above;
      if (Math.abs(above) >= NARROWEST_SEMITONES && bin >= 0 && bin < onsets.bins()) {
        int peak = peak(onsets.clock().frameAt(lead.span().startSeconds()), bin);
        if (onsets.at(peak, bin) >= LEAST_ONSET) {
          List<Double> evidence = evidence(lead, bin, peak, from, to);
          candidates.add(
              new Candidate(
                  span(bin, peak, from, to),
                  bin + LOWEST_MIDI,
                  above,
                  evidence,
                  weighed(evidence)));
        }
      }
    }
    return candidates;
  }

  private int peak(int frame, int bin) {
    int best = Math.max(0, Math.min(onsets.frames() - 1, frame));
    for (int f = Math.max(0, frame - ONSET_REACH_FRAMES);
        f <= Math.min(onsets.frames() - 1, frame + ONSET_REACH_FRAMES);
        f++) {
      best = onsets.at(f, bin) > onsets.at(best, bin) ? f : best;
    }
    return best;
  }

  private List<Double> evidence(NoteEvent lead, int bin, int peak, int from, int to) {
    int leadBin = (int) Math.round(lead.midiPitch()) - LOWEST_MIDI;
    int interval = Math.abs(bin - leadBin);
    boolean consonant = interval >= 3 && interval <= 9 && interval != 6;
    int bassBin = bin + LOWEST_MIDI - LOWEST_BASS_MIDI;
    return List.of(
        Math.log(onsets.at(peak, bin) + FLOOR),
        Math.log(mean(second, bin, from, to) + PITCH_FLOOR),
        Math.log(mean(voicing, SECOND, from, to) + FLOOR),
        song,
        consonant ? 1.0 : 0.0,
        interval == 12 ? 1.0 : 0.0,
        bassBin >= 0 && bassBin < NO_BASS ? mean(bass, bassBin, from, to) : 0.0,
        apart.share(lead.span().startSeconds(), bin, leadBin));
  }

  private static double weighed(List<Double> evidence) {
    double sum = BIAS;
    for (int i = 0; i < WEIGHTS.length; i++) {
      sum += WEIGHTS[i] * evidence.get(i);
    }
    return sum;
  }

  private Span span(int bin, int peak, int from, int to) {
    int end = from;
    int latest = Math.min(sustains.frames(), to + LONGEST_OVERHANG_FRAMES);
    while (end < latest && (end < from + 2 || sustains.at(end, bin) > SOUNDS)) {
      end++;
    }
    double start = onsets.clock().secondsAt(peak);
    return new Span(start, Math.max(start + 0.06, sustains.clock().secondsAt(end)));
  }

  private static double mean(FrameMatrix matrix, int bin, int from, int to) {
    int last = Math.min(matrix.frames(), to);
    double sum = 0;
    for (int frame = from; frame < last; frame++) {
      sum += matrix.at(frame, bin);
    }
    return last > from ? sum / (last - from) : 0;
  }
}
