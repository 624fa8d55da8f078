package undersong.search;

import java.util.List;
import java.util.Optional;
import undersong.search.Places.Place;
import undersong.search.SongLines.ChordAt;
import undersong.search.SongLines.NoteAt;
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
    Aligned chords =
        align(
            example.chords().size(),
            song.chords().size(),
            (i, k) -> like(example.chords().get(i), song.chords().get(k)));
    Aligned tune =
        align(
            example.tune().size() - 1,
            song.tune().size() - 1,
            (i, k) -> like(example.tune(), i + 1, song.tune(), k + 1));
    double byChords = example.chords().isEmpty() ? 0 : chords.score() / example.chords().size();
    double byTune = example.tune().size() < 4 ? 0 : tune.score() / (example.tune().size() - 1);
    boolean both = !example.chords().isEmpty() && example.tune().size() >= 4;
    double score = both ? 0.45 * byChords + 0.55 * byTune : Math.max(byChords, byTune);
    Optional<Place> place = Optional.empty();
    if (byTune >= byChords && tune.last() >= 0) {
      NoteAt from = song.tune().get(tune.first());
      NoteAt to = song.tune().get(tune.last() + 1);
      place =
          Optional.of(
              new Place(new Span(from.startSeconds(), to.endSeconds()), from.bar(), to.bar()));
    } else if (chords.last() >= 0) {
      ChordAt from = song.chords().get(chords.first());
      ChordAt to = song.chords().get(chords.last());
      place =
          Optional.of(
              new Place(new Span(from.startSeconds(), to.endSeconds()), from.bar(), to.bar()));
    }
    return new Like(Math.max(0, Math.min(1, score)), place);
  }

  private static double like(ChordAt one, ChordAt other) {
    if (one.degree() != other.degree()) {
      return MISMATCH;
    }
    boolean sameThird =
        one.quality().hasMajorThird() == other.quality().hasMajorThird()
            && one.quality().hasMinorThird() == other.quality().hasMinorThird();
    return sameThird ? (one.bass() == other.bass() ? 1 : 0.8) : 0.2;
  }

  private static double like(List<NoteAt> one, int i, List<NoteAt> other, int k) {
    int step = one.get(i).midi() - one.get(i - 1).midi();
    int otherStep = other.get(k).midi() - other.get(k - 1).midi();
    if (step != otherStep) {
      return MISMATCH;
    }
    return Math.abs(one.get(i).beats() - other.get(k).beats()) <= 0.26 ? 1 : 0.5;
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
