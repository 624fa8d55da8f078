package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import undersong.estimate.HeardNotes.HeardNote;
import undersong.estimate.PlaceVotes;
import undersong.feature.StereoPowers;
import undersong.reading.Echo;
import undersong.reading.NoteEvent;
import undersong.time.Span;

/**
 * The end of a phrase that is performed again from another place: the same pitches in the same
 * order and nearly the same rhythm as soon as it is over, with a lag that wanders. Where it stands
 * alone the ear takes it for the lead itself, so it is looked for there first, then among all
 * notes.
 */
final class ResungFinder {
  private static final double SHORTEST_BARS = 0.9;
  private static final double LONGEST_BARS = 2.5;
  private static final double SAME_TIME_SECONDS = 0.1;
  private static final int FEWEST_NOTES = 3;
  private static final int MOST_NOTES = 8;
  private static final double LEAST_SHARE = 0.7;

  /** What a note counts that returns among all notes while the lead goes on otherwise. */
  private static final double BESIDE_LEAD = 0.5;

  /** In notes a second: of two lags the one that wanders less is right. */
  private static final double WANDER_COST = 10;

  private static final double OTHER_PLACE = 0.25;

  /** One singer stands in one place. */
  private static final double SAME_PLACE = 0.3;

  /** A lead stands near the middle. */
  private static final double MOST_ASIDE = 0.3;

  /** So far from the lead a place says no more. */
  private static final double FAR_ASIDE = 0.5;

  private final StereoPowers powers;
  private final double barSeconds;

  ResungFinder(StereoPowers powers, double barSeconds) {
    this.powers = powers;
    this.barSeconds = barSeconds;
  }

  /** Notes that return, and how. */
  private record Return(List<NoteEvent> notes, List<Double> lags, double worth) {
    double meanLag() {
      return lags.stream().mapToDouble(Double::doubleValue).average().orElseThrow();
    }

    double share() {
      return worth / notes.size();
    }

    /** Standard deviation of the lags, in seconds. */
    double wander() {
      double mean = meanLag();
      return Math.sqrt(
          lags.stream().mapToDouble(l -> (l - mean) * (l - mean)).average().orElseThrow());
    }

    double merit() {
      return worth - WANDER_COST * wander();
    }
  }

  List<Echo> of(List<NoteEvent> lead, List<HeardNote> heard, double durationSeconds) {
    List<Echo> found = new ArrayList<>();
    int from = 0;
    while (from < lead.size()) {
      Optional<Echo> echo = again(lead, from, heard, durationSeconds);
      echo.ifPresent(found::add);
      double over = echo.map(e -> e.span().startSeconds() + e.lagSeconds()).orElse(0.0);
      from++;
      while (from < lead.size() && lead.get(from).span().startSeconds() < over) {
        from++;
      }
    }
    return found;
  }

  /** What begins with one note of the lead and is performed again, the likeliest. */
  private Optional<Echo> again(
      List<NoteEvent> lead, int from, List<HeardNote> heard, double durationSeconds) {
    NoteEvent first = lead.get(from);
    double start = first.span().startSeconds();
    Return best = null;
    for (double lag : lags(first, lead, heard)) {
      int to = from;
      while (to < lead.size()
          && lead.get(to).span().startSeconds() < start + lag - SAME_TIME_SECONDS) {
        to++;
      }
      if (to - from < FEWEST_NOTES || to - from > MOST_NOTES) {
        continue;
      }
      Return returns = returned(lead.subList(from, to), lead, heard, lag);
      if (returns.worth >= FEWEST_NOTES - BESIDE_LEAD
          && returns.share() >= LEAST_SHARE
          && (best == null || returns.merit() > best.merit())) {
        best = returns;
      }
    }
    if (best == null) {
      return Optional.empty();
    }
    double own = place(best.notes, 0);
    double there = otherPlace(best, own);
    return Math.abs(own) > MOST_ASIDE || there == own
        ? Optional.empty()
        : Optional.of(told(best, own, there, durationSeconds));
  }

  /**
   * Where the notes stand when they return, by those that something else in the middle does not
   * cover; where they stood before unless two of them agree on another place.
   */
  private double otherPlace(Return returns, double own) {
    List<Double> left = new ArrayList<>();
    List<Double> right = new ArrayList<>();
    for (NoteEvent note : returns.notes) {
      double there = place(List.of(note), returns.meanLag());
      if (there < own - OTHER_PLACE) {
        left.add(there);
      } else if (there > own + OTHER_PLACE) {
        right.add(there);
      }
    }
    List<Double> side = left.size() > right.size() ? left : right;
    side.sort(null);
    boolean together = side.size() >= 2 && side.get(side.size() - 1) - side.get(0) <= SAME_PLACE;
    return together ? side.get(side.size() / 2) : own;
  }

  /** After how long the note's pitch begins again, in the lead or elsewhere. */
  private List<Double> lags(NoteEvent first, List<NoteEvent> lead, List<HeardNote> heard) {
    double start = first.span().startSeconds();
    List<Double> lags = new ArrayList<>();
    for (NoteEvent note : lead) {
      if (Math.abs(note.midiPitch() - first.midiPitch()) < 0.8) {
        lags.add(note.span().startSeconds() - start);
      }
    }
    for (HeardNote note : heard) {
      if (Math.abs(note.midiPitch() - first.midiPitch()) < 0.8) {
        lags.add(note.startSeconds() - start);
      }
    }
    lags.removeIf(l -> l < SHORTEST_BARS * barSeconds || l > LONGEST_BARS * barSeconds);
    return lags;
  }

  private static Return returned(
      List<NoteEvent> notes, List<NoteEvent> lead, List<HeardNote> heard, double lag) {
    List<Double> lags = new ArrayList<>();
    double worth = 0;
    double amongAll = rests(notes, lead, lag) ? 1 : BESIDE_LEAD;
    for (NoteEvent note : notes) {
      double due = note.span().startSeconds() + lag;
      double inLead = Double.NaN;
      for (NoteEvent other : lead) {
        inLead = nearer(inLead, other.span().startSeconds() - due, other.midiPitch(), note);
      }
      double among = Double.NaN;
      for (HeardNote other : heard) {
        among = nearer(among, other.startSeconds() - due, other.midiPitch(), note);
      }
      if (!Double.isNaN(inLead)) {
        lags.add(lag + inLead);
        worth += 1;
      } else if (!Double.isNaN(among)) {
        lags.add(lag + among);
        worth += amongAll;
      }
    }
    return new Return(notes, lags, worth);
  }

  /** Whether the lead is silent while the notes return. */
  private static boolean rests(List<NoteEvent> notes, List<NoteEvent> lead, double lag) {
    double from = notes.get(0).span().startSeconds() + lag - SAME_TIME_SECONDS;
    double end = notes.get(notes.size() - 1).span().endSeconds() + lag;
    return lead.stream()
        .noneMatch(n -> n.span().startSeconds() >= from && n.span().startSeconds() < end);
  }

  /** The lesser of two distances from when a note is due, if this one is near and its pitch too. */
  private static double nearer(double best, double away, double pitch, NoteEvent note) {
    boolean near = Math.abs(away) <= SAME_TIME_SECONDS && Math.abs(pitch - note.midiPitch()) < 0.8;
    return near && (Double.isNaN(best) || Math.abs(away) < Math.abs(best)) ? away : best;
  }

  private static Echo told(Return returns, double own, double there, double durationSeconds) {
    double mean = returns.meanLag();
    NoteEvent first = returns.notes.get(0);
    double end = returns.notes.get(returns.notes.size() - 1).span().endSeconds() + mean;
    return new Echo(
        Echo.Kind.RESUNG,
        new Span(first.span().startSeconds(), Math.min(durationSeconds, end)),
        rounded(mean),
        rounded(returns.wander()),
        0,
        Optional.empty(),
        rounded(own),
        List.of(new Echo.Repeat(0, rounded(there), 0)),
        0.85 * Math.min(1, returns.share()) * Math.min(1, Math.abs(there - own) / FAR_ASIDE));
  }

  private double place(List<NoteEvent> notes, double lag) {
    PlaceVotes votes = new PlaceVotes(powers);
    for (NoteEvent note : notes) {
      double hertz = 440 * Math.pow(2, (note.midiPitch() - 69) / 12);
      votes.add(note.span().startSeconds() + lag, note.span().endSeconds() + lag, hertz);
    }
    return votes.crowd().placement();
  }

  private static double rounded(double value) {
    return Math.round(1e4 * value) / 1e4;
  }
}
