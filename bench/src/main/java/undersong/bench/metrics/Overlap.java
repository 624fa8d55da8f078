package undersong.bench.metrics;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;

/** Cuts two annotations at the union of their boundaries. */
public final class Overlap {
  private Overlap() {}

  /** A piece with one reference and one estimate. */
  public record Piece<T>(double startSeconds, double endSeconds, T reference, T estimated) {
    public double lengthSeconds() {
      return endSeconds - startSeconds;
    }
  }

  /** Agreement of one reference with one estimate; negative = this reference is not judged. */
  @FunctionalInterface
  public interface Agreement<T> {
    double of(T reference, T estimated);
  }

  /**
   * The pieces of the reference's span.
   *
   * @param reference in order, without overlaps; gaps are left out
   * @param estimated in order, without overlaps; cropped to the reference's span
   * @param filler what the estimate says where it says nothing
   */
  public static <T> List<Piece<T>> pieces(
      List<Timed<T>> reference, List<Timed<T>> estimated, T filler) {
    List<Piece<T>> pieces = new ArrayList<>();
    int first = 0;
    for (Timed<T> truth : reference) {
      TreeSet<Double> cuts = new TreeSet<>(List.of(truth.startSeconds(), truth.endSeconds()));
      while (first < estimated.size()
          && estimated.get(first).endSeconds() <= truth.startSeconds()) {
        first++;
      }
      int last = first;
      while (last < estimated.size() && estimated.get(last).startSeconds() < truth.endSeconds()) {
        cuts.add(Math.max(truth.startSeconds(), estimated.get(last).startSeconds()));
        cuts.add(Math.min(truth.endSeconds(), estimated.get(last).endSeconds()));
        last++;
      }
      double from = truth.startSeconds();
      for (double to : cuts.tailSet(from, false)) {
        double middle = (from + to) / 2;
        T guess = filler;
        for (int i = first; i < last; i++) {
          Timed<T> span = estimated.get(i);
          if (span.startSeconds() <= middle && middle < span.endSeconds()) {
            guess = span.value();
          }
        }
        pieces.add(new Piece<>(from, to, truth.value(), guess));
        from = to;
      }
    }
    return pieces;
  }

  /** Agreement weighted by duration over the pieces that are judged; NaN where none is. */
  public static <T> double share(
      List<Timed<T>> reference, List<Timed<T>> estimated, T filler, Agreement<T> agreement) {
    double sum = 0;
    double judged = 0;
    for (Piece<T> piece : pieces(reference, estimated, filler)) {
      double agrees = agreement.of(piece.reference(), piece.estimated());
      if (agrees >= 0) {
        sum += agrees * piece.lengthSeconds();
        judged += piece.lengthSeconds();
      }
    }
    return judged == 0 ? Double.NaN : sum / judged;
  }
}
