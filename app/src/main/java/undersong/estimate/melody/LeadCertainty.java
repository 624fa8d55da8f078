package undersong.estimate.melody;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import undersong.estimate.LearnedCertainty;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.reading.NoteEvent;

/**
 * How sure a note of the leading tune is: whether this pitch begins here and belongs to the lead. A
 * wrong note is mostly another part's, or begins elsewhere; the sureness of the pitch alone tells
 * neither.
 *
 * <p>Cost: O(frames of the notes * 264).
 */
public final class LeadCertainty {
  /** What is weighed, in the order of {@link #evidence}. */
  public static final List<String> EVIDENCE =
      List.of(
          "lead",
          "pitch",
          "holds",
          "onset",
          "elsewhere",
          "together",
          "second",
          "length",
          "leap",
          "song");

  private static final LearnedCertainty SURE = LearnedCertainty.of("melody", EVIDENCE);
  private static final double FIRST_BIN_MIDI = 21 - 1.0 / 3;
  private static final int LOWEST_MIDI = 21;
  private static final int NEAR_BINS = 3;
  private static final int SPREAD_BINS = 2;

  /** Frames to either side that still belong to the beginning of a note. */
  private static final int BEGINNING = 2;

  /** Frames to either side where another beginning of the same pitch casts doubt. */
  private static final int AROUND = 8;

  private static final int NEIGHBORS = 4;
  private static final double FLOOR = 1e-3;

  private final FrameMatrix lead;
  private final FrameMatrix voicing;
  private final FrameMatrix onset;
  private final FrameMatrix sustain;
  private final List<NoteEvent> notes;
  private final List<Frames> heard;
  private final double song;

  /**
   * @param notes of the whole tune, by onset
   */
  public LeadCertainty(EarActivations ear, List<NoteEvent> notes) {
    lead = ear.head(EarHead.LEAD);
    voicing = ear.head(EarHead.VOICING);
    onset = ear.head(EarHead.NOTE_ONSET);
    sustain = ear.head(EarHead.NOTE_SUSTAIN);
    this.notes = List.copyOf(notes);
    heard = notes.stream().map(this::frames).toList();
    song = heard.stream().mapToDouble(Frames::sounds).average().orElse(0);
  }

  /** The same notes with the probability of each. */
  List<NoteEvent> stated() {
    List<NoteEvent> stated = new ArrayList<>();
    for (int i = 0; i < notes.size(); i++) {
      NoteEvent note = notes.get(i);
      stated.add(new NoteEvent(note.span(), note.midiPitch(), SURE.of(evidence(i))));
    }
    return stated;
  }

  /**
   * What speaks for a note: that the lead sounds, at this pitch; the pitch alone; its being held by
   * whoever plays it; its onset, against one of the same pitch close by, and how many others begin
   * with it; a second voice; its length; how far it lies from the notes around; and how surely a
   * lead sounds in this recording at all.
   */
  public double[] evidence(int index) {
    NoteEvent note = notes.get(index);
    Frames frames = heard.get(index);
    int start = onset.clock().frameAt(note.span().startSeconds());
    int bin = (int) Math.round(note.midiPitch()) - LOWEST_MIDI;
    return new double[] {
      LearnedCertainty.logOdds(frames.lead()),
      frames.pitch(),
      aboveFloor(held(note, bin)),
      aboveFloor(begins(bin, start, 0, BEGINNING)),
      aboveFloor(begins(bin, start, BEGINNING + 2, AROUND)),
      Math.log(others(bin, start) + 0.1),
      frames.second(),
      Math.log(note.span().lengthSeconds()),
      leap(index),
      song
    };
  }

  private static double aboveFloor(double activation) {
    return LearnedCertainty.logOdds(activation + FLOOR);
  }

  /**
   * Means over the frames of a note.
   *
   * @param lead probability that the lead sounds at this pitch
   * @param pitch log-odds of the pitch, given that a lead sounds
   * @param sounds log-odds that a lead sounds
   * @param second probability of a second voice
   */
  private record Frames(double lead, double pitch, double sounds, double second) {}

  private Frames frames(NoteEvent note) {
    int end = Math.min(lead.frames(), voicing.frames());
    int from = Math.min(end - 1, lead.clock().frameAt(note.span().startSeconds()));
    int to = Math.min(end, Math.max(from + 1, lead.clock().frameAt(note.span().endSeconds())));
    int middle = (int) Math.round((note.midiPitch() - FIRST_BIN_MIDI) * 3);
    double[] sums = new double[4];
    for (int frame = from; frame < to; frame++) {
      double mass = mass(frame, strongest(frame, middle));
      sums[0] += mass * voicing.at(frame, 0);
      sums[1] += LearnedCertainty.logOdds(mass);
      sums[2] += LearnedCertainty.logOdds(voicing.at(frame, 0));
      sums[3] += voicing.at(frame, 2);
    }
    int count = to - from;
    return new Frames(sums[0] / count, sums[1] / count, sums[2] / count, sums[3] / count);
  }

  /** A sung pitch strays from its note. */
  private int strongest(int frame, int middle) {
    int best = Math.max(0, Math.min(lead.bins() - 1, middle));
    int high = Math.min(lead.bins() - 1, middle + NEAR_BINS);
    for (int bin = Math.max(0, middle - NEAR_BINS); bin <= high; bin++) {
      best = lead.at(frame, bin) > lead.at(frame, best) ? bin : best;
    }
    return best;
  }

  private double mass(int frame, int middle) {
    double sum = 0;
    int high = Math.min(lead.bins() - 1, middle + SPREAD_BINS);
    for (int bin = Math.max(0, middle - SPREAD_BINS); bin <= high; bin++) {
      sum += lead.at(frame, bin);
    }
    return Math.min(1, sum);
  }

  private double held(NoteEvent note, int bin) {
    int from = Math.min(sustain.frames() - 1, sustain.clock().frameAt(note.span().startSeconds()));
    int to =
        Math.min(
            sustain.frames(),
            Math.max(from + 1, sustain.clock().frameAt(note.span().endSeconds())));
    double sum = 0;
    for (int frame = from; frame < to; frame++) {
      sum += most(sustain, frame, bin);
    }
    return sum / (to - from);
  }

  /** Strongest onset of the pitch at least so many and at most so many frames away. */
  private double begins(int bin, int start, int least, int farthest) {
    double most = 0;
    int last = Math.min(onset.frames() - 1, start + farthest);
    for (int frame = Math.max(0, start - farthest); frame <= last; frame++) {
      if (Math.abs(frame - start) >= least) {
        most = Math.max(most, most(onset, frame, bin));
      }
    }
    return most;
  }

  private static double most(FrameMatrix head, int frame, int middle) {
    double most = 0;
    for (int bin = Math.max(0, middle - 1); bin <= Math.min(head.bins() - 1, middle + 1); bin++) {
      most = Math.max(most, head.at(frame, bin));
    }
    return most;
  }

  /** How many notes of other pitches begin with it. */
  private double others(int own, int start) {
    double sum = 0;
    int last = Math.min(onset.frames() - 1, start + BEGINNING);
    for (int bin = 0; bin < onset.bins(); bin++) {
      double most = 0;
      for (int frame = Math.max(0, start - BEGINNING); frame <= last; frame++) {
        most = Math.max(most, onset.at(frame, bin));
      }
      sum += Math.abs(bin - own) > 1 ? most : 0;
    }
    return sum;
  }

  /** Octaves from the middle one of the notes around. */
  private double leap(int index) {
    int first = Math.max(0, index - NEIGHBORS);
    int last = Math.min(notes.size() - 1, index + NEIGHBORS);
    double[] around = new double[last - first];
    for (int i = first, n = 0; i <= last; i++) {
      if (i != index) {
        around[n++] = notes.get(i).midiPitch();
      }
    }
    Arrays.sort(around);
    return around.length == 0
        ? 0
        : Math.abs(notes.get(index).midiPitch() - around[around.length / 2]) / 12;
  }
}
