package undersong.estimate.voice;

import java.util.ArrayList;
import java.util.List;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.reading.NoteEvent;
import undersong.time.Span;

/** Weighs, for each note of the lead, every pitch around it that begins with it. */
final class Candidates {
  private static final int LOWEST_MIDI = 21;
  private static final int WIDEST_SEMITONES = 16;
  private static final int NARROWEST_SEMITONES = 2;
  private static final int ONSET_REACH_FRAMES = 4;
  private static final double LEAST_ONSET = 0.2;
  private static final double BEGINS = 0.5;
  private static final double SOUNDS = 0.3;
  private static final int BEFORE_FRAMES = 6;
  private static final int LONGEST_OVERHANG_FRAMES = 50;

  private final FrameMatrix onsets;
  private final FrameMatrix sustains;
  private final FrameMatrix second;
  private final FrameMatrix voicing;
  private final VoiceSettings.Weights weights;

  Candidates(EarActivations ear, VoiceSettings settings) {
    this.onsets = ear.head(EarHead.NOTE_ONSET);
    this.sustains = ear.head(EarHead.NOTE_SUSTAIN);
    this.second = ear.head(EarHead.SECOND);
    this.voicing = ear.head(EarHead.VOICING);
    this.weights = settings.weights();
  }

  /** By pitch; empty where nothing begins beside the lead. */
  List<Candidate> beside(NoteEvent lead) {
    int from = Math.max(0, voicing.clock().frameAt(lead.span().startSeconds()));
    int to =
        Math.min(
            voicing.frames(),
            Math.max(from + 1, voicing.clock().frameAt(lead.span().endSeconds())));
    List<Candidate> candidates = new ArrayList<>();
    if (from >= to) {
      return candidates;
    }
    int leadPitch = (int) Math.round(lead.midiPitch());
    int onsetFrame = onsets.clock().frameAt(lead.span().startSeconds());
    int together = 0;
    for (int bin = 0; bin < onsets.bins(); bin++) {
      boolean beside = Math.abs(bin + LOWEST_MIDI - leadPitch) >= NARROWEST_SEMITONES;
      together += beside && onsets.at(peak(onsetFrame, bin), bin) > BEGINS ? 1 : 0;
    }
    double shared =
        weights.constant()
            + weights.secondSounds() * Math.log(mean(voicing, 2, from, to) + 0.05)
            + weights.together() * Math.min(together, 8) / 4.0;
    for (int above = -WIDEST_SEMITONES; above <= WIDEST_SEMITONES; above++) {
      int bin = leadPitch + above - LOWEST_MIDI;
      if (Math.abs(above) >= NARROWEST_SEMITONES && bin >= 0 && bin < onsets.bins()) {
        int peak = peak(onsetFrame, bin);
        if (onsets.at(peak, bin) >= LEAST_ONSET) {
          candidates.add(candidate(bin, above, peak, from, to, shared));
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

  private Candidate candidate(int bin, int above, int peak, int from, int to, double shared) {
    int end = from;
    int latest = Math.min(sustains.frames(), to + LONGEST_OVERHANG_FRAMES);
    while (end < latest && (end < from + 2 || sustains.at(end, bin) > SOUNDS)) {
      end++;
    }
    double endsApart = Math.abs(sustains.clock().secondsAt(end) - sustains.clock().secondsAt(to));
    int interval = Math.abs(above);
    boolean consonant = interval >= 3 && interval <= 9 && interval != 6;
    double logOdds =
        shared
            + weights.onset() * Math.log(onsets.at(peak, bin) + 0.05)
            + weights.sustain() * Math.log(mean(sustains, bin, from, to) + 0.05)
            + weights.secondPitch() * Math.log(mean(second, bin, from, to) + 0.003)
            + weights.endsApart() * Math.min(endsApart, 1.5)
            + (interval == 12 ? weights.octave() : 0)
            + (consonant ? weights.consonant() : 0)
            + weights.before() * mean(sustains, bin, from - BEFORE_FRAMES, from - 1);
    double start = onsets.clock().secondsAt(peak);
    double stop = Math.max(start + 0.06, sustains.clock().secondsAt(end));
    return new Candidate(new Span(start, stop), bin + LOWEST_MIDI, above, logOdds);
  }

  private static double mean(FrameMatrix matrix, int bin, int from, int to) {
    int first = Math.max(0, from);
    int last = Math.min(matrix.frames(), to);
    double sum = 0;
    for (int frame = first; frame < last; frame++) {
      sum += matrix.at(frame, bin);
    }
    return last > first ? sum / (last - first) : 0;
  }
}
