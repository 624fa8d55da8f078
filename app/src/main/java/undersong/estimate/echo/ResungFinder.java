package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import undersong.estimate.HeardNotes.HeardNote;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.reading.Echo;
import undersong.reading.NoteEvent;
import undersong.time.Span;

/**
 * A phrase of the lead that is performed again from another place: the same pitches in the same
 * order and nearly the same rhythm, one to two and a half bars later, with a lag that wanders.
 */
final class ResungFinder {
  private static final double SHORTEST_BARS = 0.9;
  private static final double LONGEST_BARS = 2.5;
  private static final double SAME_TIME_SECONDS = 0.1;
  private static final int FEWEST_NOTES = 3;
  private static final double LEAST_SHARE = 0.75;
  private static final double OTHER_PLACE = 0.3;

  private final StereoPowers powers;
  private final double barSeconds;

  ResungFinder(StereoPowers powers, double barSeconds) {
    this.powers = powers;
    this.barSeconds = barSeconds;
  }

  List<Echo> of(List<NoteEvent> lead, List<HeardNote> heard, double durationSeconds) {
    List<Echo> found = new ArrayList<>();
    for (List<NoteEvent> phrase : PhraseEnds.phrases(lead)) {
      double start = phrase.get(0).span().startSeconds();
      double end =
          phrase.get(phrase.size() - 1).span().endSeconds() + (LONGEST_BARS + 0.2) * barSeconds;
      List<HeardNote> near =
          heard.stream().filter(n -> n.startSeconds() > start && n.startSeconds() < end).toList();
      for (int from = 0; from + FEWEST_NOTES <= phrase.size(); from++) {
        Optional<Echo> echo = again(phrase.subList(from, phrase.size()), near, durationSeconds);
        if (echo.isPresent()) {
          found.add(echo.get());
          break;
        }
      }
    }
    return found;
  }

  private Optional<Echo> again(
      List<NoteEvent> notes, List<HeardNote> heard, double durationSeconds) {
    NoteEvent first = notes.get(0);
    double own = place(notes, 0);
    Echo best = null;
    for (HeardNote start : heard) {
      double lag = start.startSeconds() - first.span().startSeconds();
      if (lag < SHORTEST_BARS * barSeconds
          || lag > LONGEST_BARS * barSeconds
          || Math.abs(start.midiPitch() - first.midiPitch()) > 0.8) {
        continue;
      }
      List<Double> lags = lags(notes, heard, lag);
      double mean = lags.stream().mapToDouble(Double::doubleValue).average().orElse(lag);
      double there = place(notes, mean);
      if (lags.size() < Math.max(FEWEST_NOTES, LEAST_SHARE * notes.size())
          || Math.abs(there - own) < OTHER_PLACE) {
        continue;
      }
      double share = (double) lags.size() / notes.size();
      if (best == null || share * Math.abs(there - own) > best.probability()) {
        best = told(notes, lags, mean, own, there, share, durationSeconds);
      }
    }
    return Optional.ofNullable(best);
  }

  private static List<Double> lags(List<NoteEvent> notes, List<HeardNote> heard, double lag) {
    List<Double> lags = new ArrayList<>();
    for (NoteEvent note : notes) {
      double due = note.span().startSeconds() + lag;
      double best = Double.NaN;
      for (HeardNote other : heard) {
        double away = other.startSeconds() - due;
        if (Math.abs(away) <= SAME_TIME_SECONDS
            && Math.abs(other.midiPitch() - note.midiPitch()) < 0.8
            && (Double.isNaN(best) || Math.abs(away) < Math.abs(best))) {
          best = away;
        }
      }
      if (!Double.isNaN(best)) {
        lags.add(lag + best);
      }
    }
    return lags;
  }

  private static Echo told(
      List<NoteEvent> notes,
      List<Double> lags,
      double mean,
      double own,
      double there,
      double share,
      double durationSeconds) {
    double squares = lags.stream().mapToDouble(l -> (l - mean) * (l - mean)).average().orElse(0);
    double end = notes.get(notes.size() - 1).span().endSeconds() + mean;
    return new Echo(
        Echo.Kind.RESUNG,
        new Span(notes.get(0).span().startSeconds(), Math.min(durationSeconds, end)),
        rounded(mean),
        rounded(Math.sqrt(squares)),
        0,
        Optional.empty(),
        rounded(own),
        List.of(new Echo.Repeat(0, rounded(there), 0)),
        Math.min(0.85, share * Math.abs(there - own)));
  }

  /** Where the phrase's partials mostly stand, some time later: median over their cells. */
  private double place(List<NoteEvent> notes, double lag) {
    List<Double> places = new ArrayList<>();
    for (NoteEvent note : notes) {
      double hertz = 440 * Math.pow(2, (note.midiPitch() - 69) / 12);
      int from = powers.frameAt(note.span().startSeconds() + lag + 0.04);
      int end = Math.max(from + 1, powers.frameAt(note.span().endSeconds() + lag));
      for (int partial = 2; partial <= 8 && partial * hertz < 6000; partial++) {
        int bin = StereoImage.binOf(partial * hertz);
        double[] sums = new double[3];
        powers.addTo(sums, from, end, bin);
        if (sums[0] + sums[1] > 1e-10) {
          places.add(4 / Math.PI * Math.atan2(Math.sqrt(sums[1]), Math.sqrt(sums[0])) - 1);
        }
      }
    }
    places.sort(null);
    return places.isEmpty() ? 0 : places.get(places.size() / 2);
  }

  private static double rounded(double value) {
    return Math.round(1e4 * value) / 1e4;
  }
}
