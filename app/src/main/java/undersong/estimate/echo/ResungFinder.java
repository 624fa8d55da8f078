package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import undersong.estimate.HeardNotes.HeardNote;
import undersong.estimate.PlaceVotes;
import undersong.estimate.PlaceVotes.Manner;
import undersong.feature.EarActivations;
import undersong.feature.StereoPowers;
import undersong.reading.Echo;
import undersong.reading.NoteEvent;
import undersong.time.BeatGrid;
import undersong.time.Span;

/**
 * The end of a phrase that is performed again from another place: the same pitches in the same
 * order and nearly the same rhythm as soon as it is over, with a lag that wanders.
 *
 * <p>Music repeats itself, and chords hold the notes of the tune, so that pitches return says
 * little. What tells a second performance: the partials of the notes come to stand where they did
 * not stand before, and the ear follows the answer as the lead at least in part. What is held does
 * not begin again, what begins much softer is a chance overtone, and a line keeps its place in the
 * beat.
 */
public final class ResungFinder {
  private static final double SHORTEST_BARS = 0.6;
  private static final double LONGEST_BARS = 2.5;
  private static final double SAME_TIME_SECONDS = 0.1;
  private static final double SAME_PITCH = 0.8;
  private static final int FEWEST_NOTES = 3;
  private static final int MOST_NOTES = 8;
  private static final double LEAST_SHARE = 0.7;

  private static final double OTHER_PLACE = 0.25;

  private static final int[] OTHERWISE_BARS = {-2, -1, 1, 2};

  /** A lead stands near the middle. */
  private static final double MOST_ASIDE = 0.3;

  /** Answers to one note of the lead that lie nearer together are one. */
  private static final double SAME_LAG_SECONDS = 0.05;

  /** By {@code undersong.bench.decode.ResungFit}. */
  private static final double BIAS = -2.24;

  private static final double[] WEIGHTS = {23.7, 1.7, -3.67, 2.01, -9.03};
  private static final double LEAST_PROBABILITY = 0.25;

  private final StereoPowers powers;
  private final double barSeconds;
  private final ReturnEvidence evidence;

  /**
   * @param grid the beats of the song
   */
  public ResungFinder(
      StereoPowers powers, Optional<EarActivations> ear, double barSeconds, BeatGrid grid) {
    this.powers = powers;
    this.barSeconds = barSeconds;
    this.evidence = new ReturnEvidence(powers, ear, grid);
  }

  /** The likeliest of those that overlap, by time. */
  List<Echo> of(List<NoteEvent> lead, List<HeardNote> heard, double durationSeconds) {
    List<PhraseReturn> likeliest = new ArrayList<>(candidates(lead, heard));
    likeliest.removeIf(r -> probability(r) < LEAST_PROBABILITY);
    likeliest.sort(Comparator.comparingDouble(ResungFinder::probability).reversed());
    List<Echo> found = new ArrayList<>();
    for (PhraseReturn candidate : likeliest) {
      Echo echo = told(candidate, durationSeconds);
      if (found.stream().noneMatch(other -> other.span().overlaps(echo.span()))) {
        found.add(echo);
      }
    }
    found.sort(Comparator.comparingDouble(echo -> echo.span().startSeconds()));
    return found;
  }

  /** Whatever of the lead returns soon after, told or not. */
  public List<PhraseReturn> candidates(List<NoteEvent> lead, List<HeardNote> heard) {
    List<PhraseReturn> candidates = new ArrayList<>();
    for (int from = 0; from < lead.size(); from++) {
      double start = lead.get(from).span().startSeconds();
      for (double lag : lags(lead.get(from), lead, heard)) {
        int to = from;
        while (to < lead.size()
            && lead.get(to).span().startSeconds() < start + lag - SAME_TIME_SECONDS) {
          to++;
        }
        if (to - from >= FEWEST_NOTES && to - from <= MOST_NOTES) {
          returned(lead.subList(from, to), lead, heard, lag).ifPresent(candidates::add);
        }
      }
    }
    return candidates;
  }

  static double probability(PhraseReturn candidate) {
    double sum = BIAS;
    for (int i = 0; i < WEIGHTS.length; i++) {
      sum += WEIGHTS[i] * candidate.evidence().get(i);
    }
    return 1 / (1 + Math.exp(-sum));
  }

  /** After how long the note's pitch begins again, in the lead or elsewhere. */
  private List<Double> lags(NoteEvent first, List<NoteEvent> lead, List<HeardNote> heard) {
    double start = first.span().startSeconds();
    List<Double> all = new ArrayList<>();
    for (NoteEvent note : lead) {
      if (Math.abs(note.midiPitch() - first.midiPitch()) < SAME_PITCH) {
        all.add(note.span().startSeconds() - start);
      }
    }
    for (HeardNote note : heard) {
      if (Math.abs(note.midiPitch() - first.midiPitch()) < SAME_PITCH) {
        all.add(note.startSeconds() - start);
      }
    }
    all.sort(null);
    List<Double> lags = new ArrayList<>();
    for (double lag : all) {
      boolean known = !lags.isEmpty() && lag - lags.get(lags.size() - 1) < SAME_LAG_SECONDS;
      if (!known && lag >= SHORTEST_BARS * barSeconds && lag <= LONGEST_BARS * barSeconds) {
        lags.add(lag);
      }
    }
    return lags;
  }

  private Optional<PhraseReturn> returned(
      List<NoteEvent> notes, List<NoteEvent> lead, List<HeardNote> heard, double lag) {
    List<Double> lags = new ArrayList<>();
    int inLead = 0;
    for (NoteEvent note : notes) {
      double due = note.span().startSeconds() + lag;
      double again = Double.NaN;
      for (NoteEvent other : lead) {
        again = nearer(again, other.span().startSeconds() - due, other.midiPitch(), note);
      }
      inLead += Double.isNaN(again) ? 0 : 1;
      for (HeardNote other : heard) {
        again = nearer(again, other.startSeconds() - due, other.midiPitch(), note);
      }
      if (!Double.isNaN(again)) {
        lags.add(lag + again);
      }
    }
    return lags.size() < FEWEST_NOTES || lags.size() < LEAST_SHARE * notes.size()
        ? Optional.empty()
        : Optional.of(placed(notes, lags, inLead)).filter(ResungFinder::fromElsewhere);
  }

  private PhraseReturn placed(List<NoteEvent> notes, List<Double> lags, int inLead) {
    double lag = lags.stream().mapToDouble(Double::doubleValue).average().orElseThrow();
    List<PlaceVotes> first = votes(notes, 0);
    List<List<PlaceVotes>> otherwise = new ArrayList<>(List.of(first));
    for (int bars : OTHERWISE_BARS) {
      otherwise.add(votes(notes, lag + bars * barSeconds));
    }
    PlaceVotes own = new PlaceVotes(powers, Manner.APART);
    first.forEach(own::addAll);
    PlaceVotes.Crowd gained = PlaceVotes.gained(votes(notes, lag), otherwise);
    return new PhraseReturn(
        notes,
        lags,
        inLead,
        own.crowd().placement(),
        gained.placement(),
        gained.share(),
        evidence.held(notes, lag),
        evidence.levelDb(notes, lag),
        evidence.offBeat(notes.get(0).span().startSeconds(), lag));
  }

  private static boolean fromElsewhere(PhraseReturn candidate) {
    return Math.abs(candidate.ownPlacement()) <= MOST_ASIDE
        && Math.abs(candidate.placement() - candidate.ownPlacement()) >= OTHER_PLACE;
  }

  private List<PlaceVotes> votes(List<NoteEvent> notes, double lag) {
    List<PlaceVotes> votes = new ArrayList<>();
    for (NoteEvent note : notes) {
      double hertz = 440 * Math.pow(2, (note.midiPitch() - 69) / 12);
      votes.add(
          new PlaceVotes(powers, Manner.APART)
              .add(note.span().startSeconds() + lag, note.span().endSeconds() + lag, hertz));
    }
    return votes;
  }

  /** The lesser of two distances from when a note is due, if this one is near and its pitch too. */
  private static double nearer(double best, double away, double pitch, NoteEvent note) {
    boolean near =
        Math.abs(away) <= SAME_TIME_SECONDS && Math.abs(pitch - note.midiPitch()) < SAME_PITCH;
    return near && (Double.isNaN(best) || Math.abs(away) < Math.abs(best)) ? away : best;
  }

  private static Echo told(PhraseReturn returned, double durationSeconds) {
    double lag = returned.lagSeconds();
    return new Echo(
        Echo.Kind.RESUNG,
        new Span(returned.startSeconds(), Math.min(durationSeconds, returned.endSeconds() + lag)),
        rounded(lag),
        rounded(returned.wanderSeconds()),
        0,
        Optional.empty(),
        rounded(returned.ownPlacement()),
        List.of(new Echo.Repeat(0, rounded(returned.placement()), 0)),
        probability(returned));
  }

  private static double rounded(double value) {
    return Math.round(1e4 * value) / 1e4;
  }
}
