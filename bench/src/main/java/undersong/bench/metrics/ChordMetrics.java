package undersong.bench.metrics;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * Agreement of chords at the field's levels of detail. Whether a place is judged depends on the
 * reference alone.
 *
 * <p>Source: C. Raffel and others (mir_eval); J. Pauwels, G. Peeters, "Evaluating automatically
 * estimated chord sequences", ICASSP 2013.
 */
public final class ChordMetrics {
  private static final int MAJOR = 1 | 1 << 4 | 1 << 7;
  private static final int MINOR = 1 | 1 << 3 | 1 << 7;
  private static final Set<Integer> SEVENTHS =
      Set.of(MAJOR, MINOR, MAJOR | 1 << 11, MAJOR | 1 << 10, MINOR | 1 << 10);

  private ChordMetrics() {}

  /** One level of detail: 1 right, 0 wrong, -1 not judged. */
  public enum Level implements Overlap.Agreement<ChordCode> {
    ROOT {
      @Override
      int judge(ChordCode r, ChordCode e) {
        return right(true);
      }
    },
    THIRDS {
      @Override
      int judge(ChordCode r, ChordCode e) {
        return right((r.bits() & 1 << 3) == (e.bits() & 1 << 3));
      }
    },
    TRIADS {
      @Override
      int judge(ChordCode r, ChordCode e) {
        return right(r.triad() == e.triad());
      }
    },
    TETRADS {
      @Override
      int judge(ChordCode r, ChordCode e) {
        return right(r.bits() == e.bits());
      }
    },
    MAJMIN {
      @Override
      boolean judges(ChordCode r) {
        return !r.sounds() || r.triad() == MAJOR || r.triad() == MINOR;
      }

      @Override
      int judge(ChordCode r, ChordCode e) {
        return right(r.triad() == e.triad());
      }
    },
    SEVENTHS {
      @Override
      boolean judges(ChordCode r) {
        return !r.sounds() || ChordMetrics.SEVENTHS.contains(r.bits());
      }

      @Override
      int judge(ChordCode r, ChordCode e) {
        return right(r.bits() == e.bits());
      }
    },
    /** Three pitch classes in common. */
    MIREX {
      @Override
      boolean judges(ChordCode r) {
        return !r.sounds() || Integer.bitCount(r.bits()) >= 3;
      }

      @Override
      public double of(ChordCode r, ChordCode e) {
        if (!r.known() || !judges(r)) {
          return -1;
        }
        int common = Integer.bitCount(r.pitchClassBits() & e.pitchClassBits());
        return right(r.sounds() ? common >= 3 : e.equals(ChordCode.NONE));
      }

      @Override
      int judge(ChordCode r, ChordCode e) {
        throw new AssertionError("decided in of()");
      }
    };

    boolean judges(ChordCode reference) {
      return true;
    }

    abstract int judge(ChordCode reference, ChordCode estimated);

    @Override
    public double of(ChordCode reference, ChordCode estimated) {
      if (!reference.known() || !judges(reference)) {
        return -1;
      }
      return reference.root() == estimated.root() && (estimated.known() || this == ROOT)
          ? judge(reference, estimated)
          : 0;
    }

    /** The same, with the bass right as well. */
    public double withBass(ChordCode reference, ChordCode estimated) {
      double agrees = of(reference, estimated);
      return agrees == 1 && reference.bass() != estimated.bass() ? 0 : agrees;
    }

    private static int right(boolean agrees) {
      return agrees ? 1 : 0;
    }
  }

  /** Agreement weighted by duration; NaN where no place is judged. */
  public static double overlap(
      List<Timed<ChordCode>> reference, List<Timed<ChordCode>> estimated, Level level) {
    return Overlap.share(reference, estimated, ChordCode.NONE, level);
  }

  public static double overlapWithBass(
      List<Timed<ChordCode>> reference, List<Timed<ChordCode>> estimated, Level level) {
    return Overlap.share(reference, estimated, ChordCode.NONE, level::withBass);
  }

  /** Of the time with an inverted reference: the share with root, third and bass right. */
  public static double invertedRecall(
      List<Timed<ChordCode>> reference, List<Timed<ChordCode>> estimated) {
    return Overlap.share(
        reference,
        estimated,
        ChordCode.NONE,
        (r, e) -> r.sounds() && r.bass() != 0 ? Level.THIRDS.withBass(r, e) : -1);
  }

  /**
   * How alike the boundaries are.
   *
   * @param over 1 = the estimate is never cut where the reference is not
   * @param under 1 = no boundary of the reference is missed
   */
  public record Segmentation(double over, double under) {
    public double both() {
      return Math.min(over, under);
    }
  }

  /** Directional Hamming distances, after neighbors of equal code are joined. */
  public static Segmentation segmentation(
      List<Timed<ChordCode>> reference, List<Timed<ChordCode>> estimated) {
    if (reference.isEmpty()) {
      return new Segmentation(0, 0);
    }
    List<Timed<ChordCode>> truth = join(reference);
    double start = truth.get(0).startSeconds();
    double end = truth.get(truth.size() - 1).endSeconds();
    List<Timed<ChordCode>> guess = join(fill(estimated, start, end));
    return new Segmentation(1 - hamming(truth, guess), 1 - hamming(guess, truth));
  }

  /** Cropped to a span, gaps filled with no chord. */
  static List<Timed<ChordCode>> fill(List<Timed<ChordCode>> spans, double start, double end) {
    List<Timed<ChordCode>> full = new ArrayList<>();
    double at = start;
    for (Timed<ChordCode> span : spans) {
      double from = Math.max(at, span.startSeconds());
      double to = Math.min(end, span.endSeconds());
      if (to > from) {
        if (from > at) {
          full.add(new Timed<>(at, from, ChordCode.NONE));
        }
        full.add(new Timed<>(from, to, span.value()));
        at = to;
      }
    }
    if (end > at) {
      full.add(new Timed<>(at, end, ChordCode.NONE));
    }
    return full;
  }

  /** Neighbors of equal value become one. */
  public static <T> List<Timed<T>> join(List<Timed<T>> spans) {
    List<Timed<T>> joined = new ArrayList<>();
    for (Timed<T> span : spans) {
      int last = joined.size() - 1;
      if (last >= 0
          && joined.get(last).value().equals(span.value())
          && Math.abs(joined.get(last).endSeconds() - span.startSeconds()) < 1e-6) {
        joined.set(
            last, new Timed<>(joined.get(last).startSeconds(), span.endSeconds(), span.value()));
      } else {
        joined.add(span);
      }
    }
    return joined;
  }

  private static double hamming(List<Timed<ChordCode>> whole, List<Timed<ChordCode>> cuts) {
    double lost = 0;
    double total = 0;
    for (Timed<ChordCode> span : whole) {
      double longest = 0;
      for (Timed<ChordCode> cut : cuts) {
        longest = Math.max(longest, span.overlapSeconds(cut.startSeconds(), cut.endSeconds()));
      }
      lost += span.lengthSeconds() - longest;
      total += span.lengthSeconds();
    }
    return lost / total;
  }
}
