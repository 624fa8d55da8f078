package undersong.estimate.melody;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import undersong.estimate.LearnedCertainty;
import undersong.estimate.PlaceVotes;
import undersong.feature.EarActivations;
import undersong.feature.EarHead;
import undersong.feature.FrameMatrix;
import undersong.feature.StereoPowers;
import undersong.reading.NoteEvent;

/**
 * Which of the followed notes are the lead's own. In its rests whoever answers is followed in its
 * place: softer than the lead, and often from elsewhere. Each note is held against what the loud
 * notes of the song have in common, one by one.
 *
 * <p>A logistic regression, fitted by {@code training/owner.py} on the rows of {@code
 * undersong.bench.decode.OwnNoteRows}. That the lead stands in the middle is left out of the
 * evidence: it need not. <b>Cost:</b> O(frames of the notes * partials).
 */
public final class OwnNotes {
  /**
   * What is weighed: log-odds that a lead sounds, and at the song's clearest; logarithm of the
   * pitch's probability; log-odds that the note is held; decibels below the song's loud notes; how
   * far it stands from them (1: from the middle to one side); semitones from their pitch; and both
   * together, since who is softer and elsewhere is another; and how much softer, squared.
   */
  public static final List<String> EVIDENCE =
      List.of(
          "sounds",
          "song",
          "pitch",
          "held",
          "softer",
          "apart",
          "register",
          "softer-apart",
          "softer-squared");

  /** In the order of {@link #EVIDENCE}. */
  private static final double[] WEIGHTS = {0.65, -0.46, 0.63, 0.56, 0.51, -1.08, -0.18, 2.18, 0.03};

  private static final double BIAS = 4.83;

  /** Softer or farther away than this says no more. */
  private static final double SOFTEST_DB = -12;

  private static final double FARTHEST = 0.3;
  private static final int LOWEST_MIDI = 21;
  private static final double LOUD_SHARE = 0.75;
  private static final double BEST_SHARE = 0.75;
  private static final double FLOOR = 1e-3;

  private final FrameMatrix voicing;
  private final FrameMatrix sustain;
  private final LeadPath path;
  private final StereoPowers powers;
  private final double tuningSemitones;

  public OwnNotes(EarActivations ear, LeadPath path, StereoPowers powers, double tuningSemitones) {
    voicing = ear.head(EarHead.VOICING);
    sustain = ear.head(EarHead.NOTE_SUSTAIN);
    this.path = path;
    this.powers = powers;
    this.tuningSemitones = tuningSemitones;
  }

  /**
   * What is heard of a note.
   *
   * @param levelDb of its partials in the mix
   * @param place -1 left to 1 right
   */
  private record Heard(
      double sounds,
      double pitch,
      double held,
      double levelDb,
      double place,
      double midiPitch,
      double weight) {}

  /**
   * @param notes in order
   * @return what speaks for each being the lead's, in the order of {@link #EVIDENCE}
   */
  public List<double[]> evidence(List<NoteEvent> notes) {
    List<Heard> all = notes.stream().map(this::heard).toList();
    double[] weights = all.stream().mapToDouble(Heard::weight).toArray();
    double[] levels = all.stream().mapToDouble(Heard::levelDb).toArray();
    double loud = quantile(levels, weights, LOUD_SHARE);
    double[] loudness =
        IntStream.range(0, weights.length)
            .mapToDouble(i -> weights[i] * Math.min(1, Math.pow(10, (levels[i] - loud) / 10)))
            .toArray();
    double place = quantile(all.stream().mapToDouble(Heard::place).toArray(), loudness, 0.5);
    double register = quantile(all.stream().mapToDouble(Heard::midiPitch).toArray(), loudness, 0.5);
    double[] clear = all.stream().mapToDouble(h -> LearnedCertainty.logOdds(h.sounds)).toArray();
    double song = quantile(clear, weights, BEST_SHARE);
    List<double[]> evidence = new ArrayList<>();
    for (Heard h : all) {
      double softer = Math.max(SOFTEST_DB, Math.min(0, h.levelDb - loud));
      double apart = Math.min(FARTHEST, Math.abs(h.place - place));
      evidence.add(
          new double[] {
            logOdds(h.sounds),
            song,
            Math.log(h.pitch + 0.01),
            logOdds(h.held),
            softer,
            apart,
            Math.abs(h.midiPitch - register),
            softer * apart,
            softer * softer
          });
    }
    return evidence;
  }

  private static double logOdds(double probability) {
    return Math.log((probability + FLOOR) / (1 - probability + FLOOR));
  }

  private Heard heard(NoteEvent note) {
    int from = Math.min(path.frames() - 1, voicing.clock().frameAt(note.span().startSeconds()));
    int end = voicing.clock().frameAt(note.span().endSeconds());
    int to = Math.min(Math.min(path.frames(), voicing.frames()), Math.max(from + 1, end));
    int bin = (int) Math.round(note.midiPitch()) - LOWEST_MIDI;
    double[] sums = new double[3];
    for (int frame = from; frame < to; frame++) {
      sums[0] += voicing.at(frame, 0);
      sums[1] += path.massAt(frame);
      boolean known = bin >= 0 && bin < sustain.bins() && frame < sustain.frames();
      sums[2] += known ? sustain.at(frame, bin) : 0;
    }
    double hertz = 440 * Math.pow(2, (note.midiPitch() + tuningSemitones - 69) / 12);
    PlaceVotes votes =
        new PlaceVotes(powers, PlaceVotes.Manner.TOGETHER)
            .add(note.span().startSeconds(), note.span().endSeconds(), hertz);
    double power = 0;
    int first = powers.frameAt(note.span().startSeconds());
    int last = Math.max(first + 1, powers.frameAt(note.span().endSeconds()));
    for (int frame = first; frame < last; frame++) {
      power += votes.partialPower(frame, hertz);
    }
    int count = to - from;
    return new Heard(
        sums[0] / count,
        sums[1] / count,
        sums[2] / count,
        10 * Math.log10(power / (last - first) + 1e-12),
        votes.crowd().placement(),
        note.midiPitch(),
        sums[0] / count * sums[1] / count * note.span().lengthSeconds() + 1e-6);
  }

  private static double quantile(double[] values, double[] weights, double share) {
    Integer[] order = IntStream.range(0, values.length).boxed().toArray(Integer[]::new);
    Arrays.sort(order, Comparator.comparingDouble(i -> values[i]));
    double total = share * Arrays.stream(weights).sum();
    double sum = 0;
    for (int i : order) {
      sum += weights[i];
      if (sum >= total) {
        return values[i];
      }
    }
    return 0;
  }

  /**
   * @param notes in order
   * @return log-odds of each being the lead's own; of a recording without an image, infinite
   */
  double[] logOdds(List<NoteEvent> notes) {
    if (powers.frames() == 0) {
      double[] all = new double[notes.size()];
      Arrays.fill(all, Double.POSITIVE_INFINITY);
      return all;
    }
    return evidence(notes).stream().mapToDouble(OwnNotes::weighed).toArray();
  }

  private static double weighed(double[] evidence) {
    double sum = BIAS;
    for (int i = 0; i < WEIGHTS.length; i++) {
      sum += WEIGHTS[i] * evidence[i];
    }
    return sum;
  }
}
