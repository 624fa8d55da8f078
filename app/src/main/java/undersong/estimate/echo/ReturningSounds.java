package undersong.estimate.echo;

import java.lang.ref.WeakReference;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import undersong.estimate.Estimator;
import undersong.estimate.HeardNotes;
import undersong.estimate.HeardNotes.HeardNote;
import undersong.feature.Features;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.reading.Correction;
import undersong.reading.CorrectionEntry;
import undersong.reading.Corrections;
import undersong.reading.Derived;
import undersong.reading.Echo;
import undersong.reading.Echoes;
import undersong.reading.Facet;
import undersong.reading.Line;
import undersong.reading.NoteEvent;
import undersong.reading.Reading;
import undersong.time.Span;

/**
 * Delays on the lead and on lines, phrases performed again, and doubles. The room is not measured
 * yet.
 *
 * <p><b>Silence</b>, and a program without its trained ear, give nothing. <b>Cost:</b> four
 * transforms of 16384 samples for each note of the lead and up to 120 of each line, once, and
 * O(phrase notes * notes that follow).
 */
public final class ReturningSounds implements Estimator<Echoes> {
  private static final int MOST_OF_LINE = 120;
  private static final double SAME_LAG_SECONDS = 0.01;
  private static final double CLOSE_LAG_SECONDS = 0.06;
  private static final double SAME_RATIO = 0.02;

  private WeakReference<Features> lastFeatures = new WeakReference<>(null);
  private StereoPowers lastPowers = StereoPowers.of(StereoImage.NOTHING);
  private List<HeardNote> lastNotes = List.of();
  private DelayFinder lastDelays = new DelayFinder(StereoImage.NOTHING, lastPowers);
  private DelayScan lastScan = new DelayScan(StereoImage.NOTHING.lowWave());

  @Override
  public synchronized Derived<Echoes> estimate(
      Features features, Reading earlier, Corrections corrections) {
    measureOnce(features);
    List<Echo> echoes = new ArrayList<>();
    if (lastPowers.frames() > 0) {
      List<NoteEvent> lead = earlier.get(Facet.MELODY).notes();
      echoes.addAll(delays(lead, earlier, features.durationSeconds()));
      echoes.addAll(
          new ResungFinder(lastPowers, barSeconds(earlier))
              .of(lead, lastNotes, features.durationSeconds()));
      echoes.addAll(
          new DoubleFinder(lastPowers, features.image().quickLevelsDb())
              .of(
                  earlier.get(Facet.FORM).sections(),
                  lastNotes,
                  new SpreadBars(
                      lastPowers,
                      earlier.get(Facet.METER).bars(),
                      earlier.get(Facet.METER).usualBarsPerBar(),
                      lastNotes)));
    }
    List<Correction> unplaced = new ArrayList<>();
    for (CorrectionEntry entry : corrections.of(Facet.ECHOES).entries()) {
      layOver(echoes, entry.correction(), features.durationSeconds(), unplaced);
    }
    echoes.sort(
        Comparator.comparingDouble((Echo echo) -> echo.span().startSeconds())
            .thenComparing(Echo::kind));
    return new Derived<>(new Echoes(echoes, List.of()), unplaced);
  }

  /** What the scan of the mix says, then what notes say of other lags or at other places. */
  private List<Echo> delays(List<NoteEvent> lead, Reading earlier, double durationSeconds) {
    List<NoteEvent> notes = new ArrayList<>(lead);
    earlier.get(Facet.LINES).lines().forEach(line -> notes.addAll(line.notes()));
    List<Echo> ofNotes = delaysOfNotes(lead, earlier, durationSeconds);
    List<Echo> scanned = new ArrayList<>();
    for (DelayScan.Found found :
        lastScan.found(
            lead,
            lastNotes,
            earlier.get(Facet.BEATS).grid(),
            earlier.get(Facet.METER).mainSignature())) {
      Echo echo = lastDelays.told(found, notes, durationSeconds);
      if (ofNotes.stream().noneMatch(e -> isTakenFor(e, echo))) {
        scanned.add(echo);
      }
    }
    List<Echo> delays = new ArrayList<>(scanned);
    for (Echo delay : ofNotes) {
      boolean isRepeat = scanned.stream().anyMatch(e -> !sameLag(e, delay) && isMultiple(e, delay));
      boolean told =
          delays.stream().anyMatch(e -> sameLag(e, delay) && e.span().overlaps(delay.span()));
      if (!isRepeat && !told) {
        delays.add(delay);
      }
    }
    return delays;
  }

  /** Whether a note value was told for a lag close by that stands out more clearly. */
  private static boolean isTakenFor(Echo clear, Echo other) {
    return !sameLag(clear, other)
        && Math.abs(clear.lagSeconds() - other.lagSeconds()) < CLOSE_LAG_SECONDS
        && clear.probability() > other.probability();
  }

  /** Whether one lag is a multiple of the other: further repeats of one delay. */
  private static boolean isMultiple(Echo one, Echo other) {
    double ratio =
        Math.max(one.lagSeconds(), other.lagSeconds())
            / Math.min(one.lagSeconds(), other.lagSeconds());
    return Math.abs(ratio - Math.rint(ratio)) < SAME_RATIO;
  }

  /**
   * Of the lead, then of the lines: words that the ear did not take for the lead are among them,
   * and of a line at most so many notes, from all over the song. Lines of a band that plays on a
   * grid can deceive: what one of them says must be said by another part, too.
   */
  private List<Echo> delaysOfNotes(List<NoteEvent> lead, Reading earlier, double durationSeconds) {
    List<List<NoteEvent>> parts = new ArrayList<>(List.of(lead));
    for (Line line : earlier.get(Facet.LINES).lines()) {
      parts.add(spread(line.notes()));
    }
    lastDelays.keepOnly(parts.stream().flatMap(List::stream).toList());
    List<List<Echo>> found = new ArrayList<>();
    for (List<NoteEvent> part : parts) {
      found.add(
          lastDelays.of(
              part,
              earlier.get(Facet.BEATS).grid(),
              earlier.get(Facet.METER).mainSignature(),
              durationSeconds));
    }
    List<Echo> delays = new ArrayList<>(found.get(0));
    for (List<Echo> ofLine : found.subList(1, found.size())) {
      for (Echo delay : ofLine) {
        boolean confirmed =
            found.stream()
                .anyMatch(o -> o != ofLine && o.stream().anyMatch(e -> sameLag(e, delay)));
        boolean told =
            delays.stream().anyMatch(e -> sameLag(e, delay) && e.span().overlaps(delay.span()));
        if (confirmed && !told) {
          delays.add(delay);
        }
      }
    }
    return delays;
  }

  private static List<NoteEvent> spread(List<NoteEvent> notes) {
    List<NoteEvent> some = new ArrayList<>();
    for (int i = 0; i < Math.min(MOST_OF_LINE, notes.size()); i++) {
      some.add(notes.get((int) ((long) i * notes.size() / Math.min(MOST_OF_LINE, notes.size()))));
    }
    return some;
  }

  private static boolean sameLag(Echo one, Echo other) {
    return Math.abs(one.lagSeconds() - other.lagSeconds()) < SAME_LAG_SECONDS;
  }

  private static double barSeconds(Reading reading) {
    return reading.get(Facet.METER).bars().stream()
        .mapToDouble(bar -> bar.span().lengthSeconds())
        .average()
        .orElse(2);
  }

  @SuppressWarnings("ReferenceEquality") // the very same features; comparing them costs more
  private void measureOnce(Features features) {
    if (lastFeatures.get() != features) {
      lastPowers = StereoPowers.of(features.image());
      lastNotes = features.heard().map(HeardNotes::of).orElse(List.of());
      lastDelays = new DelayFinder(features.image(), lastPowers);
      lastScan = new DelayScan(features.image().lowWave());
      lastFeatures = new WeakReference<>(features);
    }
  }

  private static void layOver(
      List<Echo> echoes, Correction correction, double durationSeconds, List<Correction> unplaced) {
    if (correction instanceof Correction.NoEchoOver nothing
        && echoes.removeIf(echo -> echo.span().overlaps(nothing.span()))) {
      return;
    }
    if (correction instanceof Correction.EchoOver over
        && over.span().startSeconds() < durationSeconds) {
      Span span =
          new Span(over.span().startSeconds(), Math.min(durationSeconds, over.span().endSeconds()));
      echoes.removeIf(echo -> echo.span().overlaps(span));
      echoes.add(
          new Echo(over.echo(), span, over.lagSeconds(), 0, 0, Optional.empty(), 0, List.of(), 1));
      return;
    }
    unplaced.add(correction);
  }
}
