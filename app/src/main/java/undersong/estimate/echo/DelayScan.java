package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import undersong.estimate.HeardNotes.HeardNote;
import undersong.feature.FrameMatrix;
import undersong.kernel.WhitenedCopies;
import undersong.reading.NoteEvent;
import undersong.reading.NoteValue;
import undersong.reading.TimeSignature;
import undersong.time.BeatGrid;

/**
 * Delays set to a note value, heard in the mix as a whole: moments all over the song are compared
 * with what follows them ({@link WhitenedCopies}), and a {@link DelayTrack} for each note value
 * says where it holds.
 *
 * <p><b>In:</b> the low waveform, the lead, the beats. <b>Out:</b> stretches, several lags where
 * several hold; a lag whose multiple or part holds more clearly is a further repeat of it.
 * <b>Silence:</b> none. <b>Cost:</b> five transforms of 16384 samples for each 0.3 s.
 */
public final class DelayScan {
  private static final double STEP_SECONDS = 0.3;
  private static final double LENGTH_SECONDS = 0.6;
  private static final double SHORTEST_SECONDS = 0.2;
  private static final double LONGEST_SECONDS = 1.15;

  /** After a half note most of what a band plays returns. */
  private static final double LONGEST_VALUE = 0.5;

  /** How far the lag may lie from what the beats say: they are heard, too. */
  private static final int SEARCHED_SAMPLES = 5;

  private static final int MIX_REACH = 2;
  private static final int GAIN_REACH = 4;

  /** A note of the lead that only touches a moment's edge does not count. */
  private static final double EDGE_SECONDS = 0.1;

  private static final double SAME_RATIO = 0.02;
  private static final double FAINT_POWER = 1e-8;

  private final FrameMatrix wave;
  private final double rateHz;
  private final int longest;
  private final int length;
  private final WhitenedCopies copies;
  private List<NoteEvent> lastLead = List.of();
  private List<Double> lastTempo = List.of();
  private List<Heard> lastHeard = List.of();

  /**
   * @param wave samples of the middle, low
   */
  public DelayScan(FrameMatrix wave) {
    this.wave = wave;
    this.rateHz = wave.clock().framesPerSecond();
    this.length = (int) (LENGTH_SECONDS * rateHz);
    this.longest =
        (int) (LONGEST_SECONDS * rateHz) + SEARCHED_SAMPLES + WhitenedCopies.reachBehind() + 1;
    this.copies = new WhitenedCopies(rateHz);
  }

  /** A stretch in which sounds return after the lag. */
  public record Found(
      double lagSeconds, NoteValue value, double startSeconds, double endSeconds, double evidence) {
    boolean repeats(Found other) {
      double ratio =
          Math.max(lagSeconds, other.lagSeconds) / Math.min(lagSeconds, other.lagSeconds);
      return Math.abs(ratio - Math.rint(ratio)) < SAME_RATIO;
    }
  }

  /** What the moments say of lags close to one note value. */
  public record Heard(NoteValue value, List<DelayTrack> tracks) {
    public Heard {
      tracks = List.copyOf(tracks);
    }

    /** Where the lag holds that holds most clearly. */
    private List<Found> found(DelayTrack.Settings settings) {
      List<Found> best = List.of();
      double most = 0;
      for (DelayTrack track : tracks) {
        List<Found> found =
            track.stretches(settings).stream()
                .map(
                    s ->
                        new Found(
                            track.lagSeconds(),
                            value,
                            secondsOf(s.from()),
                            secondsOf(s.to() - 1) + LENGTH_SECONDS,
                            s.evidence()))
                .toList();
        double all = evidence(found);
        if (all > most) {
          most = all;
          best = found;
        }
      }
      return best;
    }
  }

  private static double evidence(List<Found> found) {
    return found.stream().mapToDouble(Found::evidence).sum();
  }

  /** What is found with the usual settings; listens again only if lead or tempo have changed. */
  List<Found> found(
      List<NoteEvent> lead, List<HeardNote> notes, BeatGrid grid, TimeSignature signature) {
    List<Double> tempo =
        DelayLags.values().stream().map(v -> DelayLags.seconds(grid, signature, v)).toList();
    if (!lead.equals(lastLead) || !tempo.equals(lastTempo)) {
      lastHeard = listen(lead, notes, grid, signature);
      lastLead = List.copyOf(lead);
      lastTempo = tempo;
    }
    return found(lastHeard, DelayTrack.Settings.DEFAULTS);
  }

  /** Where moments begin. */
  private static double secondsOf(int moment) {
    return STEP_SECONDS * (moment + 1);
  }

  public List<Found> found(List<Heard> heard, DelayTrack.Settings settings) {
    List<List<Found>> byLag = new ArrayList<>();
    heard.stream().map(one -> one.found(settings)).filter(f -> !f.isEmpty()).forEach(byLag::add);
    byLag.sort(Comparator.comparingDouble((List<Found> found) -> -evidence(found)));
    List<Found> found = new ArrayList<>();
    for (List<Found> stretches : byLag) {
      if (found.stream().noneMatch(f -> f.repeats(stretches.get(0)))) {
        found.addAll(stretches);
      }
    }
    return found;
  }

  /**
   * Listens to the song: the costly part.
   *
   * @param notes all that the ear heard begin
   */
  public List<Heard> listen(
      List<NoteEvent> lead, List<HeardNote> notes, BeatGrid grid, TimeSignature signature) {
    List<NoteValue> values = new ArrayList<>();
    List<Integer> lags = new ArrayList<>();
    for (NoteValue value : DelayLags.values()) {
      double seconds = DelayLags.seconds(grid, signature, value);
      if (seconds > SHORTEST_SECONDS
          && seconds < LONGEST_SECONDS
          && value.wholeNotes() < LONGEST_VALUE) {
        values.add(value);
        lags.add((int) Math.round(seconds * rateHz));
      }
    }
    int moments = (int) ((wave.frames() / rateHz - LENGTH_SECONDS - 0.1) / STEP_SECONDS);
    if (lags.isEmpty() || moments <= 0) {
      return List.of();
    }
    Moments all = new Moments(moments, lags);
    for (int moment = 0; moment < moments; moment++) {
      all.listen(moment, lead);
    }
    boolean[] begins = begins(notes, moments);
    List<Heard> heard = new ArrayList<>();
    for (int i = 0; i < lags.size(); i++) {
      heard.add(new Heard(values.get(i), all.tracks(i, values.get(i), begins)));
    }
    return heard;
  }

  /** In which moments a note begins early enough to be compared. */
  private boolean[] begins(List<HeardNote> notes, int moments) {
    boolean[] begins = new boolean[moments];
    for (HeardNote note : notes) {
      for (int moment = 0; moment < moments; moment++) {
        double after = note.startSeconds() - secondsOf(moment);
        begins[moment] |= after > -EDGE_SECONDS / 2 && after < LENGTH_SECONDS - EDGE_SECONDS;
      }
    }
    return begins;
  }

  /** What every moment says of every lag, a few samples to both sides. */
  private final class Moments {
    private final List<Integer> lags;
    private final double[][][] mix;
    private final double[][][] lead;
    private final double[][] gain;
    private final boolean[] sung;
    private final float[] window = new float[length + longest];
    private final float[] byLag = new float[longest];

    private Moments(int moments, List<Integer> lags) {
      int offs = 2 * SEARCHED_SAMPLES + 1;
      this.lags = lags;
      this.mix = new double[lags.size()][offs][moments];
      this.lead = new double[lags.size()][offs][moments];
      this.gain = new double[lags.size()][moments];
      this.sung = new boolean[moments];
    }

    private void listen(int moment, List<NoteEvent> notes) {
      double from = secondsOf(moment);
      int first = wave.clock().frameAt(from);
      double power = 0;
      for (int i = 0; i < window.length; i++) {
        window[i] = first + i < wave.frames() ? wave.at(first + i, 0) : 0;
        power += i < length ? window[i] * window[i] / length : 0;
      }
      if (power < FAINT_POWER) {
        return;
      }
      copies.take(window, length);
      copies.all(byLag);
      for (int i = 0; i < lags.size(); i++) {
        for (int off = 0; off < mix[i].length; off++) {
          int lag = lags.get(i) + off - SEARCHED_SAMPLES;
          mix[i][off][moment] = WhitenedCopies.standsOut(byLag, lag, MIX_REACH);
        }
      }
      double[] pitches =
          notes.stream()
              .filter(n -> n.span().startSeconds() < from + LENGTH_SECONDS - EDGE_SECONDS)
              .filter(n -> n.span().endSeconds() > from + EDGE_SECONDS)
              .mapToDouble(n -> 440 * Math.pow(2, (n.midiPitch() - 69) / 12))
              .toArray();
      if (pitches.length > 0) {
        sung[moment] = true;
        copies.of(pitches, byLag);
        for (int i = 0; i < lags.size(); i++) {
          for (int off = 0; off < mix[i].length; off++) {
            int lag = lags.get(i) + off - SEARCHED_SAMPLES;
            lead[i][off][moment] = WhitenedCopies.standsOut(byLag, lag, MIX_REACH);
          }
        }
        copies.gains(pitches, byLag);
        for (int i = 0; i < lags.size(); i++) {
          for (int lag = lags.get(i) - GAIN_REACH; lag <= lags.get(i) + GAIN_REACH; lag++) {
            gain[i][moment] = Math.max(gain[i][moment], byLag[lag]);
          }
        }
      }
    }

    private List<DelayTrack> tracks(int index, NoteValue value, boolean[] begins) {
      List<DelayTrack> tracks = new ArrayList<>();
      for (int off = 0; off < mix[index].length; off++) {
        double lag = (lags.get(index) + off - SEARCHED_SAMPLES) / rateHz;
        tracks.add(
            new DelayTrack(
                lag,
                DelayLags.bandsRepeat(value),
                mix[index][off],
                lead[index][off],
                gain[index],
                sung,
                begins));
      }
      return tracks;
    }
  }
}
