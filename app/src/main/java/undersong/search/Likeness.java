package undersong.search;

import java.util.Optional;
import undersong.search.Places.Place;
import undersong.time.Span;

/**
 * How like one stretch of music is to the best stretch of a song: chords and tune are aligned
 * locally, both seen from their own key and the tune also at any pitch, so that a transposed copy
 * is a copy. Local alignment after T. F. Smith, M. S. Waterman, "Identification of common molecular
 * subsequences", J. Mol. Biol. 147, 1981 (from memory); what counts as like is our own.
 *
 * <p><b>Cost:</b> the example's length times the song's.
 */
public final class Likeness {
  private static final double GAP = 0.6;
  private static final double MISMATCH = -0.7;

  private Likeness() {}

  /**
   * @param score 1 where the whole example occurs, 0 where nothing of it does
   * @param place of the best stretch
   */
  public record Like(double score, Optional<Place> place) {}

  /** What stands within a span. */
  public static SongLines within(SongLines song, Span span) {
    return new SongLines(
        song.chords().stream()
            .filter(c -> c.endSeconds() > span.startSeconds() + 0.05)
            .filter(c -> c.startSeconds() < span.endSeconds() - 0.05)
            .toList(),
        song.tune().stream().filter(n -> span.contains(n.startSeconds() + 0.02)).toList(),
        song.bass().stream().filter(n -> span.contains(n.startSeconds() + 0.02)).toList());
  }

  public static Like of(SongLines example, SongLines song) {
    ChordLine wantedChords = example.chordLine();
    NoteLine wantedTune = example.tuneLine();
    ChordLine chordLine = song.chordLine();
    NoteLine tuneLine = song.tuneLine();
    Aligned chords =
        align(wantedChords.size(), chordLine.size(), (i, k) -> like(wantedChords, i, chordLine, k));
    Aligned tune =
        align(
            wantedTune.size() - 1,
            tuneLine.size() - 1,
            (i, k) -> like(wantedTune, i + 1, tuneLine, k + 1));
    double byChords = wantedChords.size() == 0 ? 0 : chords.score() / wantedChords.size();
    double byTune = wantedTune.size() < 4 ? 0 : tune.score() / (wantedTune.size() - 1);
    boolean both = wantedChords.size() > 0 && wantedTune.size() >= 4;
    double score = both ? 0.45 * byChords + 0.55 * byTune : Math.max(byChords, byTune);
    Optional<Place> place = Optional.empty();
    if (byTune >= byChords && tune.last() >= 0) {
      PackedTimes.Moment[] moments = tuneLine.moments(tune.last() + 2);
      place = Optional.of(PackedTimes.place(moments[tune.first()], moments[tune.last() + 1]));
    } else if (chords.last() >= 0) {
      PackedTimes.Moment[] moments = chordLine.moments(chords.last() + 1);
      place = Optional.of(PackedTimes.place(moments[chords.first()], moments[chords.last()]));
    }
    return new Like(Math.max(0, Math.min(1, score)), place);
  }

  private static double like(ChordLine one, int i, ChordLine other, int k) {
    if (one.degree(i) != other.degree(k)) {
      return MISMATCH;
    }
    boolean sameThird =
        one.quality(i).hasMajorThird() == other.quality(k).hasMajorThird()
            && one.quality(i).hasMinorThird() == other.quality(k).hasMinorThird();
    return sameThird ? (one.bass(i) == other.bass(k) ? 1 : 0.8) : 0.2;
  }

  private static double like(NoteLine one, int i, NoteLine other, int k) {
    if (one.step(i) != other.step(k)) {
      return MISMATCH;
    }
    return Math.abs(one.beats(i) - other.beats(k)) <= 0.26 ? 1 : 0.5;
  }

  private interface Fit {
    double at(int i, int k);
  }

  /**
   * @param first and last of the song's items in the best alignment; -1 where there is none
   */
  private record Aligned(double score, int first, int last) {}

  private static Aligned align(int examples, int items, Fit fit) {
    if (examples <= 0 || items <= 0) {
      return new Aligned(0, -1, -1);
    }
    double[] before = new double[items + 1];
    int[] beganBefore = new int[items + 1];
    double best = 0;
    int first = -1;
    int last = -1;
    for (int i = 0; i < examples; i++) {
      double[] here = new double[items + 1];
      int[] began = new int[items + 1];
      for (int k = 1; k <= items; k++) {
        double diagonal = before[k - 1] + fit.at(i, k - 1);
        double score = Math.max(0, Math.max(diagonal, Math.max(before[k], here[k - 1]) - GAP));
        here[k] = score;
        if (score == 0) {
          began[k] = k;
        } else if (score == diagonal) {
          began[k] = before[k - 1] == 0 ? k - 1 : beganBefore[k - 1];
        } else {
          began[k] = score == before[k] - GAP ? beganBefore[k] : began[k - 1];
        }
        if (score > best) {
          best = score;
          first = began[k];
          last = k - 1;
        }
      }
      before = here;
      beganBefore = began;
    }
    return new Aligned(best, first, last);
  }
}
