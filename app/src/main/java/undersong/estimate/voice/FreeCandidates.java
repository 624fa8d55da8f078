package undersong.estimate.voice;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import undersong.estimate.LearnedCertainty;
import undersong.estimate.PlaceVotes;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.feature.StereoPowers;
import undersong.reading.NoteEvent;
import undersong.time.Span;

/**
 * Weighs every note that the ear hears and that is not the lead's, as one of a voice beside it,
 * whether it sounds with the lead, against it or in its rests.
 *
 * <p>A logistic regression, fitted by {@code training/free.py} on the rows of {@code
 * undersong.bench.decode.FreeVoiceRows}. Where such a voice stands is left out of the evidence: our
 * own stand aside, others need not. <b>Cost:</b> O(frames * pitches), and O(notes of the lead) for
 * each note found.
 */
public final class FreeCandidates {
  /**
   * What is weighed: logarithm of the onset; log-odds that the note is held; logarithms of its
   * probability as a second voice and as the lead's pitch; log-odds that a lead and that a second
   * voice sounds; logarithm of how many others begin with it; how much of the bass it is; decibels
   * below the lead's loud notes; logarithm of its length; how much of what begins around it falls
   * apart from the lead's; whether it lies a third, fourth, fifth or sixth from a note that the
   * lead begins with it, and whether an octave; onset and holding as a voice beside the lead, as a
   * line of the accompaniment, and the onset as anybody's; how clearly the song's voices speak at
   * their best; and the square of the onset as a voice.
   */
  public static final List<String> EVIDENCE =
      List.of(
          "onset",
          "held",
          "second",
          "lead",
          "leads",
          "seconds",
          "together",
          "bass",
          "softer",
          "length",
          "apart",
          "consonant",
          "octave",
          "voice",
          "voiced",
          "line",
          "lined",
          "any",
          "song",
          "voice-squared");

  /**
   * How a note stands to the lead: it begins with one of its notes, goes against it, or answers.
   */
  public enum Standing {
    ALONG(
        3.67,
        new double[] {
          0.60, 0.15, 0.82, 0.07, -0.32, 0.22, 0.03, -0.41, 0.10, 0.07, -0.30, 0.83, -0.62, 0.60,
          0.31, 0.35, -0.08, 0.27, -0.01, 0.02
        }),
    AGAINST(
        3.29,
        new double[] {
          0.41, -0.21, 0.37, 0.23, -0.06, -0.42, -0.29, -0.18, 0.18, 0.39, 0.03, 0.00, 0.00, 0.74,
          0.27, 0.35, -0.05, 0.18, 0.05, -0.02
        }),
    IN_ITS_REST(
        3.33,
        new double[] {
          0.31, -0.03, 0.14, 0.76, 0.50, -0.31, -0.44, -0.01, 0.21, 0.22, 0.01, 0.00, 0.00, 0.35,
          0.21, 0.39, -0.03, 0.11, 0.22, -0.08
        });

    private final double bias;

    /** In the order of {@link #EVIDENCE}. */
    private final double[] weights;

    Standing(double bias, double[] weights) {
      this.bias = bias;
      this.weights = weights;
    }

    double logOdds(List<Double> evidence) {
      double sum = bias;
      for (int i = 0; i < weights.length; i++) {
        sum += weights[i] * evidence.get(i);
      }
      return sum;
    }
  }

  private static final int LOWEST_MIDI = 21;
  private static final int LOWEST_BASS_MIDI = 23;
  private static final int NO_BASS = 45;
  private static final int LOW_BIN = 40 - LOWEST_MIDI;
  private static final int HIGH_BIN = 96 - LOWEST_MIDI;
  private static final double LEAST_ONSET = 0.3;
  private static final double LEAST_VOICE = 0.3;
  private static final double STRUCK_AGAIN = 0.5;
  private static final double HELD = 0.3;
  private static final double LONGEST_SECONDS = 4;
  private static final double SAME_SECONDS = 0.1;
  private static final double TOGETHER_SECONDS = 0.06;
  private static final double FLOOR = 1e-3;

  private final FrameMatrix onsets;
  private final FrameMatrix sustains;
  private final FrameMatrix second;
  private final FrameMatrix leadPitch;
  private final FrameMatrix voicing;
  private final FrameMatrix bass;
  private final FrameMatrix voiceOnsets;
  private final FrameMatrix voiceSustains;
  private final FrameMatrix lineOnsets;
  private final FrameMatrix lineSustains;
  private final FrameMatrix anyOnsets;
  private final double song;
  private final StereoPowers powers;
  private final List<NoteEvent> lead;
  private final BeginningsApart apart;
  private final double tuningSemitones;
  private final double loudDb;
  private final int[] beginning;

  /**
   * @param lead its notes, in order
   */
  public FreeCandidates(
      EarActivations ear, StereoPowers powers, List<NoteEvent> lead, double tuningSemitones) {
    onsets = ear.head(EarHead.NOTE_ONSET);
    sustains = ear.head(EarHead.NOTE_SUSTAIN);
    second = ear.head(EarHead.SECOND);
    leadPitch = ear.head(EarHead.LEAD);
    voicing = ear.head(EarHead.VOICING);
    bass = ear.head(EarHead.BASS_PITCH);
    voiceOnsets = ear.head(EarHead.VOICE_ONSET);
    voiceSustains = ear.head(EarHead.VOICE_SUSTAIN);
    lineOnsets = ear.head(EarHead.LINE_ONSET);
    lineSustains = ear.head(EarHead.LINE_SUSTAIN);
    anyOnsets = ear.head(EarHead.ANY_ONSET);
    double[] most = new double[voiceSustains.frames()];
    for (int frame = 0; frame < most.length; frame++) {
      for (int bin = LOW_BIN; bin < HIGH_BIN; bin++) {
        most[frame] = Math.max(most[frame], voiceSustains.at(frame, bin));
      }
    }
    Arrays.sort(most);
    song = most.length == 0 ? -7 : logOdds(most[(int) (0.85 * (most.length - 1))]);
    this.powers = powers;
    this.lead = List.copyOf(lead);
    this.tuningSemitones = tuningSemitones;
    apart = new BeginningsApart(onsets, lead);
    double[] levels = lead.stream().mapToDouble(n -> levelDb(n.span(), n.midiPitch())).toArray();
    Arrays.sort(levels);
    loudDb = levels.length == 0 ? 0 : levels[(int) (0.75 * (levels.length - 1))];
    beginning = new int[onsets.frames()];
    for (int frame = 0; frame < beginning.length; frame++) {
      for (int bin = LOW_BIN; bin < HIGH_BIN; bin++) {
        beginning[frame] += begins(onsets, frame, bin, LEAST_ONSET) ? 1 : 0;
      }
    }
  }

  /** All that may be notes of such a voice, by onset; the evidence in {@link #EVIDENCE}'s order. */
  public List<Candidate> all() {
    List<Candidate> all = new ArrayList<>();
    for (int bin = LOW_BIN; bin < HIGH_BIN; bin++) {
      for (int frame = 0; frame < onsets.frames(); frame++) {
        boolean heard =
            begins(onsets, frame, bin, LEAST_ONSET)
                || (begins(voiceOnsets, frame, bin, LEAST_VOICE)
                    && near(onsets, frame, bin) < LEAST_ONSET);
        if (heard && !isLeads(frame, bin)) {
          all.add(candidate(frame, bin));
        }
      }
    }
    all.sort(Comparator.comparingDouble(c -> c.span().startSeconds()));
    return all;
  }

  private static boolean begins(FrameMatrix onsets, int frame, int bin, double least) {
    double here = onsets.at(frame, bin);
    return here >= least
        && (frame == 0 || here >= onsets.at(frame - 1, bin))
        && (frame + 1 == onsets.frames() || here > onsets.at(frame + 1, bin));
  }

  /** Whether the lead has that pitch there. */
  private boolean isLeads(int frame, int bin) {
    double seconds = onsets.clock().secondsAt(frame);
    return lead.stream()
        .anyMatch(
            n ->
                Math.round(n.midiPitch()) == bin + LOWEST_MIDI
                    && n.span().startSeconds() - SAME_SECONDS <= seconds
                    && seconds < n.span().endSeconds() - SAME_SECONDS / 2);
  }

  private static double near(FrameMatrix onsets, int frame, int bin) {
    double most = 0;
    int last = Math.min(onsets.frames() - 1, frame + 2);
    for (int f = Math.max(0, frame - 2); f <= last; f++) {
      most = Math.max(most, onsets.at(f, bin));
    }
    return most;
  }

  public Standing standing(Span span) {
    if (lead.stream().anyMatch(n -> begins(n, span.startSeconds()))) {
      return Standing.ALONG;
    }
    double under = lead.stream().mapToDouble(n -> overlap(n.span(), span)).sum();
    return 2 * under > span.lengthSeconds() ? Standing.AGAINST : Standing.IN_ITS_REST;
  }

  private static boolean begins(NoteEvent note, double seconds) {
    return Math.abs(note.span().startSeconds() - seconds) < SAME_SECONDS;
  }

  private Candidate candidate(int frame, int bin) {
    double start = onsets.clock().secondsAt(frame);
    int end = sustains.clock().frameAt(start + SAME_SECONDS);
    int latest = Math.min(sustains.frames(), sustains.clock().frameAt(start + LONGEST_SECONDS));
    while (end < latest && sustains.at(end, bin) > HELD && !again(frame, end, bin)) {
      end++;
    }
    Span span = new Span(start, Math.max(start + SAME_SECONDS, sustains.clock().secondsAt(end)));
    int midi = bin + LOWEST_MIDI;
    NoteEvent near = nearest(start);
    int above = near == null ? 0 : midi - (int) Math.round(near.midiPitch());
    List<Double> evidence = evidence(span, frame, bin, near);
    return new Candidate(span, midi, above, evidence, standing(span).logOdds(evidence));
  }

  private boolean again(int begun, int sustainFrame, int bin) {
    int frame = onsets.clock().frameAt(sustains.clock().secondsAt(sustainFrame));
    return frame > begun + 3 && frame < onsets.frames() && begins(onsets, frame, bin, STRUCK_AGAIN);
  }

  private NoteEvent nearest(double seconds) {
    return lead.stream()
        .min(Comparator.comparingDouble(n -> Math.abs(n.span().startSeconds() - seconds)))
        .orElse(null);
  }

  private List<Double> evidence(Span span, int frame, int bin, NoteEvent near) {
    int reach = (int) Math.round(TOGETHER_SECONDS * onsets.clock().framesPerSecond());
    int others = -1;
    for (int f = Math.max(0, frame - reach);
        f <= Math.min(beginning.length - 1, frame + reach);
        f++) {
      others += beginning[f];
    }
    int bassBin = bin + LOWEST_MIDI - LOWEST_BASS_MIDI;
    int middle = 3 * bin + 1 + (int) Math.round(3 * tuningSemitones);
    double pitch = 0;
    for (int b = Math.max(0, middle - 1); b <= Math.min(leadPitch.bins() - 1, middle + 1); b++) {
      pitch += mean(leadPitch, b, span);
    }
    int leadBin = near == null ? -10 : (int) Math.round(near.midiPitch()) - LOWEST_MIDI;
    boolean begins = near != null && begins(near, span.startSeconds());
    int interval = near == null ? 0 : Math.abs(bin - leadBin);
    return Arrays.asList(
        Math.log(near(onsets, frame, bin) + FLOOR),
        logOdds(mean(sustains, bin, span)),
        Math.log(mean(second, bin, span) + 0.003),
        Math.log(pitch + 0.01),
        logOdds(mean(voicing, 0, span)),
        logOdds(mean(voicing, 2, span)),
        Math.log(Math.max(0, others) + 0.5),
        bassBin >= 0 && bassBin < NO_BASS ? mean(bass, bassBin, span) : 0.0,
        Math.max(-30, Math.min(0, levelDb(span, bin + LOWEST_MIDI) - loudDb)),
        Math.log(span.lengthSeconds()),
        apart.share(span.startSeconds(), bin, leadBin),
        begins && interval >= 3 && interval <= 9 && interval != 6 ? 1.0 : 0.0,
        begins && interval == 12 ? 1.0 : 0.0,
        Math.log(near(voiceOnsets, frame, bin) + FLOOR),
        logOdds(mean(voiceSustains, bin, span)),
        Math.log(near(lineOnsets, frame, bin) + FLOOR),
        logOdds(mean(lineSustains, bin, span)),
        Math.log(near(anyOnsets, frame, bin) + FLOOR),
        song,
        Math.pow(Math.log(near(voiceOnsets, frame, bin) + FLOOR), 2));
  }

  private double levelDb(Span span, double midiPitch) {
    if (powers.frames() == 0) {
      return 0;
    }
    double hertz = 440 * Math.pow(2, (midiPitch + tuningSemitones - 69) / 12);
    PlaceVotes votes = new PlaceVotes(powers, PlaceVotes.Manner.TOGETHER);
    int first = powers.frameAt(span.startSeconds());
    int last = Math.max(first + 1, powers.frameAt(span.endSeconds()));
    double power = 0;
    for (int frame = first; frame < last; frame++) {
      power += votes.partialPower(frame, hertz);
    }
    return 10 * Math.log10(power / (last - first) + 1e-12);
  }

  private static double overlap(Span a, Span b) {
    return Math.max(
        0, Math.min(a.endSeconds(), b.endSeconds()) - Math.max(a.startSeconds(), b.startSeconds()));
  }

  private static double mean(FrameMatrix matrix, int bin, Span span) {
    int from = Math.min(matrix.frames() - 1, matrix.clock().frameAt(span.startSeconds()));
    int to =
        Math.min(matrix.frames(), Math.max(from + 1, matrix.clock().frameAt(span.endSeconds())));
    double sum = 0;
    for (int frame = from; frame < to; frame++) {
      sum += matrix.at(frame, bin);
    }
    return sum / (to - from);
  }

  private static double logOdds(double probability) {
    return LearnedCertainty.logOdds(Math.max(FLOOR, Math.min(1 - FLOOR, probability)));
  }
}
