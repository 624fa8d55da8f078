package undersong.estimate.key;

import java.util.ArrayList;
import java.util.List;
import undersong.reading.Correction;
import undersong.reading.KeyRegion;
import undersong.time.Span;

/** The listener's word on keys, laid over exactly where it was said; the newest wins. */
final class SaidKeys {
  /** A leftover shorter than this goes to its neighbor. */
  private static final double SHORTEST_SECONDS = 0.5;

  private SaidKeys() {}

  static List<KeyRegion> laidOver(
      List<KeyRegion> heard, List<Correction.KeyOver> said, double durationSeconds) {
    List<KeyRegion> regions = heard;
    for (Correction.KeyOver over : said) {
      double from = over.span().startSeconds();
      double to = Math.min(durationSeconds, over.span().endSeconds());
      from = from < SHORTEST_SECONDS ? 0 : from;
      to = durationSeconds - to < SHORTEST_SECONDS ? durationSeconds : to;
      List<KeyRegion> next = new ArrayList<>();
      for (KeyRegion region : regions) {
        double start = region.span().startSeconds();
        if (start < from) {
          next.add(respan(region, start, Math.min(from, region.span().endSeconds())));
        }
      }
      next.add(new KeyRegion(new Span(from, to), over.key(), 1, List.of()));
      for (KeyRegion region : regions) {
        double end = region.span().endSeconds();
        if (end > to) {
          next.add(respan(region, Math.max(to, region.span().startSeconds()), end));
        }
      }
      regions = next;
    }
    return joined(regions);
  }

  /** Leftovers go to the region before them, or to the one after where a said one stands before. */
  private static List<KeyRegion> joined(List<KeyRegion> regions) {
    List<KeyRegion> out = new ArrayList<>();
    double start = 0;
    for (int i = 0; i < regions.size(); i++) {
      double end = regions.get(i).span().endSeconds();
      KeyRegion region = respan(regions.get(i), start, end);
      KeyRegion last = out.isEmpty() ? null : out.get(out.size() - 1);
      boolean sliver = region.probability() < 1 && end - start < SHORTEST_SECONDS;
      boolean afterSaid = last == null || last.probability() == 1;
      if (sliver && afterSaid && i + 1 < regions.size()) {
        continue; // the next region begins where this leftover did
      }
      start = end;
      if (last != null && (sliver || last.key().equals(region.key()))) {
        double surer = Math.max(last.probability(), sliver ? 0 : region.probability());
        Span both = new Span(last.span().startSeconds(), end);
        out.set(out.size() - 1, new KeyRegion(both, last.key(), surer, last.runnersUp()));
      } else {
        out.add(region);
      }
    }
    return out;
  }

  private static KeyRegion respan(KeyRegion region, double start, double end) {
    return new KeyRegion(
        new Span(start, end), region.key(), region.probability(), region.runnersUp());
  }
}
