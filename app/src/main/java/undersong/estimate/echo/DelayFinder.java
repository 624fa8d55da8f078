package undersong.estimate.echo;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import undersong.feature.EarHead;
import undersong.feature.Features;
import undersong.feature.FrameMatrix;
import undersong.feature.StereoImage;
import undersong.feature.StereoPowers;
import undersong.kernel.CopySearch;
import undersong.reading.Echo;
import undersong.reading.NoteEvent;
import undersong.reading.TimeSignature;
import undersong.time.BeatGrid;
import undersong.time.Span;

/**
 * True delays: where and at which lag the ear hears copies ({@link HeardDelays}), the lag to the
 * sample from the mix ({@link ExactLag}), and what the notes there show of levels and places.
 *
 * <p><b>Silence</b>, and a program without its trained ear, give none. <b>Cost:</b> as those, and
 * four transforms of 16384 samples for each of up to {@value #MOST_SHOWN} notes a stretch, once.
 */
final class DelayFinder {
  private static final int MOST_SHOWN = 24;

  /** The ear's moments are a tenth of a second. */
  private static final double EDGE_SECONDS = 0.15;

  /** Notes that are this much softer after the lag show its levels. */
  private static final double LEAST_GAIN = 0.1;

  private static final double MOST_GAIN = 0.9;

  /**
   * Evidence of a stretch that is as likely true as not, and how fast that grows: on tuning songs.
   */
  private static final double EVEN_EVIDENCE = 0.6;

  private static final double EVIDENCE_WIDTH = 3.4;

  private final DelayEchoes maker;
  private final FrameMatrix wave;
  private final CopySearch search;
  private final Map<NoteEvent, CopyLevels> known = new HashMap<>();
  private final List<Held> held = new ArrayList<>();

  /** A stretch in which a lag holds. */
  private record Held(double lagSeconds, HeardDelays.Stretch stretch) {}

  DelayFinder(Features features, StereoPowers powers) {
    this.maker = new DelayEchoes(powers);
    this.wave = features.image().lowWave();
    this.search = new CopySearch(StereoImage.WAVE_CLOCK.framesPerSecond());
    Map<Integer, List<HeardDelays.Stretch>> byLag = new TreeMap<>();
    features
        .heard()
        .map(ear -> HeardDelays.of(ear.head(EarHead.ECHO), HeardDelays.Settings.DEFAULTS))
        .orElse(List.of())
        .forEach(s -> byLag.computeIfAbsent(s.bin(), bin -> new ArrayList<>()).add(s));
    ExactLag exact = new ExactLag(wave);
    for (List<HeardDelays.Stretch> stretches : byLag.values()) {
      List<Span> spans = stretches.stream().map(HeardDelays.Stretch::span).toList();
      exact
          .seconds(stretches.get(0).lagSeconds(), spans)
          .ifPresent(lag -> stretches.forEach(s -> held.add(new Held(lag, s))));
    }
  }

  /**
   * @param notes of the lead and of lines: those that come back show how loud and where
   */
  List<Echo> of(
      List<NoteEvent> notes, BeatGrid grid, TimeSignature signature, double durationSeconds) {
    known.keySet().retainAll(Set.copyOf(notes));
    List<Echo> echoes = new ArrayList<>();
    for (Held one : held) {
      double start = Math.min(one.stretch.span().startSeconds(), durationSeconds);
      Span span = new Span(start, Math.min(durationSeconds, one.stretch.span().endSeconds()));
      if (span.lengthSeconds() > 0) {
        double sure = (one.stretch.evidence() - EVEN_EVIDENCE) / EVIDENCE_WIDTH;
        echoes.add(
            maker.echo(
                new DelayEchoes.Delay(
                    one.lagSeconds,
                    DelayLags.value(one.lagSeconds, grid, signature),
                    Math.min(0.95, 1 / (1 + Math.exp(-sure)))),
                shown(notes, span, one.lagSeconds),
                span));
      }
    }
    return echoes;
  }

  /** Notes that come back softer, some from all over the stretch. */
  private Map<NoteEvent, CopyLevels> shown(List<NoteEvent> notes, Span span, double lagSeconds) {
    List<NoteEvent> here =
        notes.stream()
            .filter(n -> n.span().startSeconds() >= span.startSeconds() - EDGE_SECONDS)
            .filter(n -> n.span().startSeconds() < span.endSeconds() - lagSeconds)
            .toList();
    Map<NoteEvent, CopyLevels> shown = new LinkedHashMap<>();
    for (int i = 0; i < here.size(); i += 1 + here.size() / MOST_SHOWN) {
      CopyLevels levels = known.computeIfAbsent(here.get(i), n -> CopyLevels.of(n, wave, search));
      double gain = levels.after(lagSeconds);
      if (gain >= LEAST_GAIN && gain <= MOST_GAIN) {
        shown.put(here.get(i), levels);
      }
    }
    return shown;
  }
}
